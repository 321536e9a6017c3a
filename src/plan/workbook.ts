/** The whole workbook of an office and its takeoffs, as one plan. */
import type { RawOffice } from '../takeoff/office.js'
import type { Takeoff } from '../takeoff/takeoff.js'
import type { Flavor } from './calls.js'
import { jobSheets } from './jobSheets.js'
import { officeSheets } from './officeSheets.js'
import { standardPlaces } from './places.js'
import type { Made, WorkbookPlan } from './plan.js'
import { tablesSheet } from './tablesSheet.js'

export function takeoffWorkbook(office: RawOffice, takeoffs: readonly Takeoff[], flavor: Flavor, made: Made): WorkbookPlan {
  const places = standardPlaces()
  return { sheets: [...takeoffs.flatMap((takeoff) => jobSheets(takeoff, places, flavor, made)), ...officeSheets(office, made), tablesSheet(made)] }
}

export const templateWorkbook = (office: RawOffice, made: Made): WorkbookPlan => ({ sheets: officeSheets(office, made) })
