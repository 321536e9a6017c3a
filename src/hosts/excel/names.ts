/** The names of a job's sums in Excel: what they are to be, and the way there and back. */
import { ofJob, placeOfName, pointsInto } from '../../plan/definedNames.js'
import type { SheetPlan } from '../../plan/plan.js'

/** A name of the workbook as it was and as it is to be; undefined where there is none. */
export interface NameToSet {
  name: string
  before: string | undefined
  next: string | undefined
}

/** Names of ours that are new, point to another row now, or belong to a sum that the job has no more. One that points elsewhere is somebody's own. */
export function namesToSet(plans: readonly SheetPlan[], standing: ReadonlyMap<string, string>): NameToSet[] {
  const known = new Map([...standing].map(([name, formula]) => [name.toLowerCase(), { name, formula }]))
  return plans.flatMap(({ name: sheet, definedNames }) => {
    if (!definedNames?.length) return []
    // A sheet that somebody deleted leaves names without a place.
    const isOurs = (formula: string) => pointsInto(formula, sheet) || formula.includes('#REF!')
    const wanted = definedNames.map((one): NameToSet => ({ name: one.name, before: known.get(one.name.toLowerCase())?.formula, next: `=${placeOfName(sheet, one)}` }))
    const start = ofJob(definedNames[0]!.name)
    const gone = [...known.values()].filter(({ name, formula }) => ofJob(name) === start && isOurs(formula) && !wanted.some((one) => one.name.toLowerCase() === name.toLowerCase()))
    return [...wanted.filter(({ before }) => before === undefined || isOurs(before)), ...gone.map(({ name, formula }): NameToSet => ({ name, before: formula, next: undefined }))]
  })
}

/** Brings names to what they are to be, from what they are on the other side. */
export function setNames(context: Excel.RequestContext, names: readonly NameToSet[], to: 'before' | 'next'): void {
  for (const one of names) {
    const [is, wanted] = to === 'next' ? [one.before, one.next] : [one.next, one.before]
    if (is === wanted) continue
    if (wanted === undefined) context.workbook.names.getItem(one.name).delete()
    else if (is === undefined) context.workbook.names.add(one.name, wanted)
    else context.workbook.names.getItem(one.name).formula = wanted
  }
}
