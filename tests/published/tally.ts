/** What the published figures amount to: counted for the test's last line and for the reference page. */
export interface Figure {
  formula: string
  expected: number | string
  tolerance: { rel?: number; abs?: number }
  why: string
  source: string
  status: 'published' | 'derived' | 'from memory'
}

export const functionsIn = (formula: string): string[] => [...formula.matchAll(/CISTERN\.([A-Z0-9]+)\(/g)].map((match) => match[1]!)

export function tally(figures: readonly Figure[], valueOf: (formula: string) => number | string) {
  let worst = { share: 0, formula: '' }
  for (const { formula, expected, tolerance } of figures) {
    if (typeof expected === 'string') continue
    const allowed = Math.max((tolerance.rel ?? 0) * Math.abs(expected), tolerance.abs ?? 0)
    const share = Math.abs((valueOf(formula) as number) - expected) / allowed
    if (share > worst.share) worst = { share, formula }
  }
  const count = (status: Figure['status']) => figures.filter((figure) => figure.status === status).length
  return {
    functions: new Set(figures.flatMap(({ formula }) => functionsIn(formula))).size,
    checked: figures.length,
    sources: new Set(figures.map(({ source }) => source.split(', example')[0])).size,
    published: count('published'),
    derived: count('derived'),
    fromMemory: count('from memory'),
    worst,
  }
}
