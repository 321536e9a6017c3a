/** The Crew sheet in Spanish: no code without its text, the same figures and cases as the English, accents whole, and read back as before. */
import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { olderSpanish } from '../../src/takeoff/older/crewWords.js'
import { cautionRules } from '../../src/takeoff/cautions.js'
import { crewSteps } from '../../src/takeoff/crewSteps.js'
import { SPANISH_NOTE, spanishStops, spanishCautions, spanishClosing, spanishFacts, spanishFigures, spanishHolds, spanishStages, spanishSteps } from '../../src/takeoff/spanish.js'
import { facts } from '../../src/plan/sheets/crewHead.js'
import { verdictRules } from '../../src/takeoff/verdicts.js'
import { namesIn, type Words } from '../../src/takeoff/template.js'
import { jobSheets } from '../../src/plan/jobSheets.js'
import { fromEntries } from '../../src/plan/keptEntries.js'
import { standardPlaces } from '../../src/plan/places.js'
import { leastRow, takeoffOf } from '../support/office.js'

const cases = (words: Words): readonly (readonly [string, string])[] => (typeof words === 'string' ? [['', words]] : words)
/** Numbers of a text that stand outside of braces; sizes in inches are words in one language and figures in both. */
const figures = (text: string): string[] => (text.replace(/\{[^}]*\}/g, '').match(/\d+(?:[-/.,]\d+)*/g) ?? []).sort()

function agree(english: Words, spanish: Words, about: string): void {
  const [one, other] = [cases(english), cases(spanish)]
  expect(
    other.map(([when]) => when),
    about,
  ).toEqual(one.map(([when]) => when))
  one.forEach(([, text], at) => {
    expect(namesIn(other[at]![1]).sort(), `${about}: figures of the job`).toEqual(namesIn(text).sort())
    // "quarter bend" is "codo de 90°".
    expect(
      figures(other[at]![1]).filter((figure) => figure !== '90'),
      `${about}: figures`,
    ).toEqual(figures(text))
  })
}

describe('the Crew sheet in Spanish', () => {
  it('has a text for each step, caution, stage and hold, with the same figures', () => {
    for (const { code, text, figure, stage, hold } of crewSteps) {
      expect(spanishSteps[code], `${code} has no text in spanishSteps of takeoff/spanish.ts`).toBeDefined()
      agree(text, spanishSteps[code]!, code)
      expect(spanishFigures[code] !== undefined, `${code}: a figure in spanishFigures of takeoff/spanish.ts where there is one in English`).toBe(figure !== '')
      if (figure) agree(figure, spanishFigures[code]!, `${code}, figure`)
      expect(spanishStages[stage], `${stage} has none in spanishStages`).toBeDefined()
      if (hold) expect(spanishHolds[hold], `${hold} has none in spanishHolds of takeoff/spanish.ts`).toBeDefined()
    }
    for (const { name, text } of cautionRules) {
      expect(spanishCautions[name], `${name} has none in spanishCautions of takeoff/spanish.ts`).toBeDefined()
      agree(text, spanishCautions[name]![1], name)
    }
    for (const [label, words] of facts) {
      expect(spanishFacts[label], label).toBeDefined()
      agree(words, spanishFacts[label]![1], label)
    }
    expect(Object.keys(spanishFacts)).toHaveLength(facts.length)
    const stops = verdictRules.filter(({ rule }) => rule.includes('"stop"')).map(({ name }) => name)
    expect(Object.keys(spanishStops).sort(), 'verdicts that can say stop, in spanishStops').toEqual([...stops].sort())
    expect(Object.keys(spanishSteps)).toHaveLength(crewSteps.length)
    expect(Object.keys(spanishCautions)).toHaveLength(cautionRules.length)
  })
  it('that was released is known as ours for good: on a sheet of an earlier version it is nobody’s', () => {
    const plain = Object.values(spanishSteps)
      .flatMap((words) => cases(words).map(([, text]) => text))
      .filter((text) => !namesIn(text).length)
    const released = JSON.parse(readFileSync('tests/data/plainSpanish.json', 'utf8')) as string[]
    expect(
      plain.filter((text) => !released.includes(text)),
      'new plain sentences go into tests/data/plainSpanish.json',
    ).toEqual([])
    expect(
      released.filter((text) => !plain.includes(text) && !olderSpanish.includes(text)),
      'words that were changed go into olderSpanish of takeoff/older/crewWords.ts',
    ).toEqual([])
  })
  it('is written in whole letters, and never says "pozo" for a pit or "manga" for a sleeve', () => {
    const all = JSON.stringify([spanishStops, spanishSteps, spanishCautions, spanishFacts, spanishStages, spanishHolds, spanishClosing])
    expect(all).not.toMatch(/[^ -\u024f«»°’–]/)
    expect(all).not.toMatch(/\b(?:pozo|manga|delantal|grapa|lejía|debe)\b/i)
  })
  it('stands beside English where the job asks for it, says who has to read it first, and leaves no line behind', () => {
    const sheetOf = (CrewLanguage: string) => {
      // Vacuum and cover beyond what the maker allows: the crew does not start.
      const takeoff = takeoffOf({ ...leastRow, RainIntensity_in_per_h: 1, TestVacuum_inHg: 9, Cover_ft: 9, CrewLanguage })
      return jobSheets(takeoff, standardPlaces(), 'native', { date: '2026-11-25', revision: 1, version: 'test' }).find(({ kind }) => kind === 'crew')!
    }
    const words = (plan: ReturnType<typeof sheetOf>) => plan.cells.map(({ value }) => String(value ?? '')).join('\n')
    expect(words(sheetOf('English'))).not.toContain('excavación')
    const both = sheetOf('English and Spanish')
    expect(words(both)).toContain(SPANISH_NOTE)
    expect(words(both)).toContain('ANTES DE EXCAVAR')
    expect(words(both)).toContain('Bombee la excavación')
    expect(words(both)).toContain('RESCATE')
    expect(words(both)).toMatch(
      /Test vacuum: .*\nHOLD: engineer or licensed person\nAlto: vacío de la prueba\. Las cifras [^\n]*\nESPERE: ingeniero o persona con licencia\n[^]*Alto: tierra sobre las tapas\./,
    )
    expect(words(both).match(/^Siguen los peligros: /gm)?.length).toBe(words(both).match(/^Still: /gm)!.length)
    const rows = Array.from({ length: Math.max(...both.cells.map(({ row }) => row)) }, (_, at) =>
      Array.from({ length: 8 }, (_unused, column) => {
        const cell = both.cells.filter((one) => one.row === at + 1 && one.column === column + 1).at(-1)
        return { value: cell?.value ?? null, ...(cell?.formula === undefined ? {} : { formula: cell.formula }) }
      }),
    )
    expect(fromEntries(rows, both.name)).toMatchObject({ crew: { cells: {}, added: [] }, problems: [] })
  })
})
