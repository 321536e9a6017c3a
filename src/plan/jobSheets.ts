/** The sheets of one job: their names, and the plan of all of them. */
import { withAsMade } from './sheets/asMade.js'
import { cutList } from '../takeoff/cutList.js'
import { sheetNameProblem } from '../takeoff/tableProblems.js'
import { type Takeoff } from '../takeoff/takeoff.js'
import { cellsWriter, nativeWriter, type Flavor } from './calls.js'
import { nothingEarlier, type Earlier } from './earlier.js'
import { NamePlaces, type OfficePlaces } from './places.js'
import { madeLine, type Made, type SheetPlan } from './plan.js'
import type { JobContext } from './sheetKind.js'
import { changesOf } from './sheets/changesSheet.js'
import { sheetKinds, type SheetKindName } from './sheets/index.js'
import { workingDraft } from './sheets/workingSheet.js'

export type JobSheetNames = Readonly<Record<SheetKindName, string>>
/** A name of 31 characters at most: beside the longest name of a job the space is left out. */
const nameOf = (prefix: string, job: string): string => (prefix.length + 1 + job.length > 31 ? `${prefix}${job}` : `${prefix} ${job}`)
export const jobSheetNames = (job: string): JobSheetNames => Object.fromEntries(sheetKinds.map(({ kind, prefix }) => [kind, nameOf(prefix, job)])) as JobSheetNames

export function jobSheets(takeoff: Takeoff, places: OfficePlaces, flavor: Flavor, made: Made, earlier: Earlier = nothingEarlier, isOneOfSeveral = false): SheetPlan[] {
  const { design } = takeoff
  const sheets = jobSheetNames(design.name)
  const problem = Object.values(sheets).map(sheetNameProblem).find(Boolean)
  if (problem) throw new Error(`${design.name}: ${problem}.`)
  const names = new NamePlaces(places)
  for (const { placed, kind } of sheetKinds) placed?.(names, sheets[kind], design)
  const heading = { title: [design.name, design.single('Site')].filter(Boolean).join(' — '), made: madeLine(made) }
  const working = workingDraft(heading)
  const job: JobContext = {
    takeoff,
    design,
    places,
    names,
    flavor,
    writer: flavor === 'native' ? nativeWriter(names, design, working, sheets.working) : cellsWriter(names),
    working,
    heading,
    made,
    earlier,
    isOneOfSeveral,
    cuts: cutList(takeoff),
    entryCodes: new Set(sheetKinds.flatMap(({ codes }) => codes?.(takeoff) ?? [])),
  }
  // Those that all others may point to come first; the rest may point to those left of them.
  const laidOut = new Map([...sheetKinds].sort((one, other) => Number(!one.placed) - Number(!other.placed)).map(({ kind, plan }) => [kind, plan(job, sheets[kind])]))
  const plans = sheetKinds.flatMap(({ kind }) => laidOut.get(kind) ?? []).map((plan) => ({ ...plan, paper: takeoff.house.paper }))
  return plans.map((plan) => (plan.kind === 'changes' ? withAsMade(plan, changesOf(job), takeoff, plans) : plan))
}
