/** How far a figure may be trusted reaches whoever reads it: no step and no result is graded better than what it is taken from. */
import { describe, expect, it } from 'vitest'
import { calculations } from '../src/calc/index.js'
import { bibliography, trustedLess, type Grade } from '../src/sources.js'
import { tables } from '../src/tables/index.js'
import { gradeWords } from '../src/takeoff/results/grades.js'
import { resultGroups, type ResultRule } from '../src/takeoff/results/index.js'

const worstOf = (grades: readonly Grade[]): Grade => grades.reduce((worst, grade) => (trustedLess(grade, worst) ? grade : worst))
const ofTable = new Map(tables.map((table) => [table.id, worstOf(table.rows.map((_, at) => table.sourceOf(at).grade))]))
const worstRead = (formula: string): Grade | undefined => {
  const read = [...formula.matchAll(/\b([A-Z]\w*)\[/g)].flatMap(([, id]) => ofTable.get(id!) ?? [])
  return read.length ? worstOf(read) : undefined
}
/** Functions that give a figure of a published table as it stands, by the table's least trusted row. */
const lookUps = new Map(
  calculations.flatMap(({ id, steps = [] }) => {
    const worst = steps.flatMap((step) => worstRead(step.formula) ?? [])
    return worst.length ? [[id, worstOf(worst)] as const] : []
  }),
)

describe('grades', () => {
  it('a step that reads a table is trusted no more than its least row', () => {
    const better = calculations.flatMap(({ id, steps = [] }) =>
      steps.flatMap(({ symbol, formula, source }) => {
        const worst = worstRead(formula)
        return worst && trustedLess(worst, source.grade) ? [`${id} ${symbol}: ${source.grade}, the table ${worst}`] : []
      }),
    )
    expect(better).toEqual([])
  })
  it('a result that looks a figure up is trusted no more than the look-up', () => {
    const better = resultGroups
      .flatMap(({ results }) => results)
      .flatMap(({ name, formula, source }) => {
        // A row that is named in the formula is graded by itself.
        const open = formula.replace(/MATCH\("[^"]*",[^)]*\)|\b[A-Z]{4,}\("[^"]*"[^()]*\)/g, '').replace(/INDEX\(\w+\[\w+\],\)/g, '')
        const called = [...open.matchAll(/\b([A-Z]{4,})\(/g)].flatMap(([, id]) => lookUps.get(id!) ?? [])
        const worst = [...called, worstRead(open) ?? []].flat()
        return worst.length && trustedLess(worstOf(worst), source.grade) ? [`${name}: ${source.grade}, looked up ${worstOf(worst)}`] : []
      })
    expect(better).toEqual([])
  })
  it('a figure from memory is told of in every result that is worked out with it', () => {
    const all = resultGroups.flatMap(({ results }) => results)
    const byName = new Map<string, ResultRule>(all.map((rule) => [rule.name, rule]))
    /** By way of the words of the formulas, and not of what reads them. */
    const reaches = (name: string, seen: Set<string>): boolean => {
      const rule = byName.get(name)
      if (!rule || seen.has(name)) return false
      seen.add(name)
      return rule.source.grade === 'from memory' || [...rule.formula.replace(/"[^"]*"/g, '').matchAll(/\b[A-Z]\w*\b(?![[(])/g)].some(([named]) => reaches(named, seen))
    }
    const said = all.filter(({ name }) => reaches(name, new Set()))
    expect(said.length).toBeGreaterThan(100)
    expect(said.filter((rule) => !/ \*$|^from memory$/.test(gradeWords(rule))).map(({ name }) => name)).toEqual([])
    expect(all.filter((rule) => !said.includes(rule) && / \*$|^from memory$/.test(gradeWords(rule))).map(({ name }) => name)).toEqual([])
    // By hand: the pressure with surge is worked out with a wave speed whose moduli are from memory.
    expect(gradeWords(byName.get('LineSurge_psi')!)).toBe('handbook *')
  })
  it('a work known from memory is graded so', () => {
    // Exact by definition: what is remembered is no measurement. Of the code of D3034 a part was read, and its rows are graded one by one.
    const apart = ['definitions', 'astmD3034', 'dd41', 'estimating', 'plumbingCode']
    const better = Object.entries(bibliography).filter(
      ([id, { edition, publisher, grade }]) => !apart.includes(id) && /from memory/.test(`${edition} ${publisher}`) && grade !== 'from memory',
    )
    expect(better.map(([id]) => id)).toEqual([])
  })
})
