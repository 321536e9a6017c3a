/** The sheets of one job: their names, and the plan of all of them. */
import { sheetNameProblem, type Takeoff } from '../takeoff/takeoff.js'
import { cellsWriter, nativeWriter, type Flavor } from './calls.js'
import { checksSheet } from './checksSheet.js'
import { crewSheet } from './crewSheet.js'
import { designSheet, placeDesign } from './designSheet.js'
import { NamePlaces, type OfficePlaces } from './places.js'
import { madeLine, SheetDraft, type Made, type SheetPlan } from './plan.js'
import { orderSheet } from './orderSheet.js'
import { quoteSheet } from './quoteSheet.js'
import { takeoffSheet } from './takeoffSheet.js'
import { testSheet } from './testSheet.js'
import { placeYear, yearSheet } from './yearSheet.js'

export const jobSheetNames = (job: string) => ({
  takeoff: `Takeoff ${job}`,
  quote: `Quote ${job}`,
  order: `Order ${job}`,
  design: `Design ${job}`,
  crew: `Crew ${job}`,
  test: `Test ${job}`,
  year: `Year ${job}`,
  checks: `Checks ${job}`,
  working: `Working ${job}`,
})

export type JobSheetNames = ReturnType<typeof jobSheetNames>

export function jobSheets(takeoff: Takeoff, places: OfficePlaces, flavor: Flavor, made: Made): SheetPlan[] {
  const { design } = takeoff
  const sheets = jobSheetNames(design.name)
  const problem = Object.values(sheets).map(sheetNameProblem).find(Boolean)
  if (problem) throw new Error(`${design.name}: ${problem}.`)
  const names = new NamePlaces(places)
  placeDesign(names, sheets.design, design)
  placeYear(names, sheets.year, design)
  const title = [design.name, design.single('Site')].filter(Boolean).join(' — ')
  const heading = { title, made: madeLine(made) }
  const working = new SheetDraft()
  working.heading(title, 'Working: every engineering figure step by step, as ordinary formulas', heading.made)
  working.next()
  ;['symbol', 'meaning', 'value', 'unit', 'formula', 'source'].forEach((text, at) => working.put(at + 2, text === 'value' ? 'headingRight' : 'heading', text))
  working.next()
  const writer = flavor === 'native' ? nativeWriter(names, design, working, sheets.working) : cellsWriter(names)
  const designPlan = designSheet(design, names, writer, sheets.design, heading)
  const takeoffPlan = takeoffSheet(takeoff, names, places, writer, sheets.takeoff, heading)
  const plans = [
    takeoffPlan,
    quoteSheet(takeoff, names, sheets.quote, heading),
    orderSheet(takeoff, names, sheets.order, heading),
    designPlan,
    crewSheet(takeoff, names, sheets.crew, heading),
    testSheet(takeoff, names, sheets.test, heading, flavor),
    yearSheet(design, names, sheets.year, heading, flavor),
    checksSheet(takeoff, names, sheets.checks, heading),
  ]
  if (flavor === 'native') {
    plans.push({
      name: sheets.working,
      kind: 'working',
      widths: [2, 16, 34, 16, 12, 60, 52],
      cells: working.cells,
      frozenRows: 5,
      titleRows: [1, 5],
      landscape: true,
      footer: design.name,
      tables: [],
      validations: [],
    })
  }
  return plans
}
