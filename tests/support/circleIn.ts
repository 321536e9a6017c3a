import { formula } from '../../src/formula/formula.js'

/** The first circle among named formulas, as the names along it; undefined when there is none. */
export function circleIn(rules: readonly { name: string; formula: string }[]): readonly string[] | undefined {
  const byName = new Map(rules.map(({ name, formula: text }) => [name, text]))
  const done = new Set<string>()
  const path: string[] = []
  const visit = (name: string): readonly string[] | undefined => {
    if (done.has(name) || !byName.get(name)) return undefined
    const at = path.indexOf(name)
    if (at >= 0) return [...path.slice(at), name]
    path.push(name)
    for (const next of formula(byName.get(name)!).names) {
      const found = visit(next)
      if (found) return found
    }
    path.pop()
    done.add(name)
    return undefined
  }
  for (const { name } of rules) {
    const found = visit(name)
    if (found) return found
  }
  return undefined
}
