/** The tables that the office owns: their columns, what each may hold, and what an empty cell means. */
import { conduitSizeKey, wireKey } from '../keys.js'
import { linePipeKey, lineSizeKey } from './lineKeys.js'
import { date, keyed, number, oneOf, rowOf, rule, text, type Field, type Fields } from './fields.js'

export const monthNames = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'] as const
export const CURVE_POINTS = 5
/** Rows below the heading of each table that formulas look through, so that rows added later are found. */
export const MOST_ROWS = { Jobs: 1000, Tanks: 300, Pumps: 300, Roofs: 300, Rain: 300, Items: 600, Prices: 1000 } as const
const points = Array.from({ length: CURVE_POINTS }, (_, at) => at + 1)
const LONGEST_JOB_NAME = 23

/** The columns of Jobs. Names are what item rules use; the unit is the last part of the name. */
export const jobFields = {
  Job: text('Job', 'Short name; it becomes part of the sheet names.', { required: true, unique: true, longest: LONGEST_JOB_NAME }),
  Site: text('Site', 'Where it is, for people.'),
  Date: date('Date', 'Date of the quote.'),
  RoofArea_ft2: number('Roof area', 'Plan (horizontal) area that drains to the tanks.', { least: 1, most: 1_000_000, required: true }),
  RoofSurface: rowOf('Roofs', 'Roof surface', 'A surface of the sheet Roofs.', { default: 'metal' }),
  RainStation: rowOf('Rain', 'Rain station', 'A station of the sheet Rain.', { required: true }),
  FirstFlush_in: number('First flush', 'Depth taken off each month of rain; leave 0 when the roof coefficient already holds the loss.', { least: 0, most: 10, default: 0 }),
  FilterShare: number('Filter share', 'Share of the water that passes the filter.', { least: 0, most: 1, above: true, default: 0.9 }),
  People: number('People', 'People served.', { least: 0, most: 10_000, required: true }),
  UsePerPerson_gal_per_day: number('Use a person', 'Indoor use a day for each person.', { least: 0, most: 500, default: 45 }),
  OutdoorUse_gal_per_day: number('Outdoor use', 'Garden and other use a day, the year round.', { least: 0, most: 100_000, default: 0 }),
  WantedReliability: number('Wanted reliability', 'Share of the demand that the tanks should meet.', { least: 0, most: 1, default: 0.9 }),
  TankModel: rowOf('Tanks', 'Tank model', 'A model of the sheet Tanks.', { required: true }),
  TankCount: number('Tanks', 'Leave empty to take the fewest that reach the wanted reliability.', { least: 1, most: 12, only: [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12] }),
  TankGap_in: number('Gap between tanks', 'Clear distance between the walls of two tanks.', { least: 4, most: 120, default: 12 }),
  Cover_ft: number('Cover', 'Earth over the lids.', { least: 0, most: 20, default: 2 }),
  GroundwaterDepth_ft: number('Groundwater depth', 'Depth of the highest groundwater below grade. Empty means not known: the verdict on uplift then says check.', { least: 0, most: 200, default: 200 }),
  SoilClass: oneOf('Soil class', 'As classed by the competent person: rock, A, B or C. C where nobody has classed it.', ['rock', 'A', 'B', 'C'], { default: 'C' }),
  Swell: number('Swell', 'Share by which dug earth grows.', { least: 0, most: 1, default: 0.25 }),
  InletRun_ft: number('Inlet run', 'Drain from the downspouts to the far tank.', { least: 0, most: 2000, default: 20 }),
  OverflowRun_ft: number('Overflow run', 'Drain from the overflow to where it may spill.', { least: 0, most: 2000, default: 20 }),
  DrainPipe: oneOf('Drain pipe', '4 in pipe of the inlet and overflow drains.', ['PVC 40', 'PVC SDR 35'], { default: 'PVC 40' }),
  DrainSlope_in_per_ft: number('Drain slope', 'Fall of the inlet and overflow drains.', { least: 0.03, most: 6, default: 0.25 }),
  RainIntensity_in_per_h: number('Rain intensity', 'Design rain of the adopted code for this place.', { least: 0.1, most: 20, default: 4 }),
  WaterLineRun_ft: number('Water-line run', 'Buried line from the pump tank to the house.', { least: 1, most: 5000, default: 100 }),
  WaterLineRise_ft: number('Rise to the house', 'Height of the house connection above the ground at the tanks.', { least: -200, most: 500, default: 5 }),
  WaterLinePipe: keyed(linePipeKey, 'Water-line pipe', 'Polyethylene, 160 psi at least.', { default: 'PE IPS 200' }),
  WaterLineSize: keyed(lineSizeKey, 'Water-line size', 'Nominal size.', { default: '1' }),
  LineFittings: oneOf('Line fittings', 'Must suit the pipe: insert fittings on IPS, compression with stiffeners on CTS. Leave empty to follow the pipe.', ['IPS insert', 'CTS compression']),
  TrenchDepth_in: number('Trench depth', 'Of the water line and the power feed: below frost, and as the code asks.', { least: 12, most: 120, default: 36 }),
  HouseFlow_gpm: number('House flow', 'Flow wanted at the house.', { least: 0.5, most: 200, default: 8 }),
  HousePressure_psi: number('House pressure', 'Pressure wanted at the house at that flow.', { least: 0, most: 150, default: 45 }),
  PumpModel: rowOf('Pumps', 'Pump model', 'Leave empty to take the first of the sheet Pumps that meets the duty.'),
  PowerRun_ft: number('Power run', 'Feed from the panel to the tank edge.', { least: 1, most: 5000, default: 100 }),
  Voltage_V: number('Voltage', 'Of the pump circuit.', { least: 110, most: 480, default: 230 }),
  DropLimit: number('Drop limit', 'Voltage drop allowed, as a share.', { least: 0.005, most: 0.1, default: 0.03 }),
  CableMetal: oneOf('Cable metal', 'Of the pump feed.', ['copper', 'aluminum'], { default: 'copper' }),
  CableSize: keyed(wireKey, 'Cable size', 'Leave empty to take the smallest that keeps the drop limit and the ampacity.'),
  CableSlack_ft: number('Cable slack', 'Left in the tank and under the drop, so that settling draws slack.', { least: 0, most: 100, default: 10 }),
  ConduitSize: keyed(conduitSizeKey, 'Conduit size', 'PVC conduit through the riser sleeve.', { default: '1' }),
  BedThickness_in: number('Bed thickness', 'Levelled stone under the tanks.', { least: 2, most: 36, default: 6 }),
  WorkingRoom_ft: number('Working room', 'From the tank walls to the foot of the pit walls.', { least: 0.5, most: 10, default: 2 }),
  StoneOverLine_in: number('Stone over the line', 'Height of the pump-end stone over the water line.', { least: 0, most: 36, default: 6 }),
  TestVacuum_inHg: number('Test vacuum', 'Level of the vacuum test the contract names.', { least: 1, most: 10, default: 4 }),
  TestHold_min: number('Hold time', 'How long the gauge is watched.', { least: 1, most: 120, default: 5 }),
  TestLoss: number('Loss allowed', 'Share of the test vacuum that may be lost, as the rule named in the contract says; the sheet Published tables lists several.', { least: 0, most: 0.5, default: 0 }),
  LaborRate_usd_per_h: number('Labor rate', 'One crew hour.', { least: 0, most: 1000, default: 62 }),
  Markup: number('Markup', 'On the order cost.', { least: 0, most: 3, default: 0.2 }),
  Tax: number('Tax', 'On cost with markup.', { least: 0, most: 0.5, default: 0 }),
} as const satisfies Fields
export type JobFieldName = keyof typeof jobFields

const tankFields: Fields = {
  Model: text('Model', 'Name of the tank, once each.', { required: true, unique: true, longest: 40 }),
  Length_ft: number('Outside length', 'Across the row of tanks.', { least: 2, most: 60, required: true }),
  Width_ft: number('Outside width', 'Along the row.', { least: 2, most: 30, required: true }),
  Height_ft: number('Outside height', 'Floor and lid included.', { least: 2, most: 20, required: true }),
  Wall_in: number('Wall', '', { least: 1, most: 24, required: true }),
  Floor_in: number('Floor', '', { least: 1, most: 24, required: true }),
  Lid_in: number('Lid', '', { least: 1, most: 24, required: true }),
  WaterDepth_ft: number('Water depth', 'Floor to the overflow.', { least: 0.5, most: 18, required: true }),
  Coupling_in: number('Coupling height', 'Water-line coupling over the inside floor.', { least: 1, most: 60, default: 8 }),
  Openings: number('Openings', 'Lid openings with a riser.', { least: 1, most: 4, default: 1 }),
  Opening_in: number('Opening', 'Diameter of an opening.', { least: 12, most: 60, default: 24 }),
  MostCover_ft: number('Most cover', 'Deepest earth cover the maker allows.', { least: 0, most: 40, default: 4 }),
  Weight_lb: number('Weight', 'Empty, from the maker.', { least: 100, most: 200_000, required: true }),
  Price_usd: number('Price', 'Price of one tank at the plant; delivery has a line of its own.', { least: 0, most: 1_000_000, required: true }),
}

const pumpFields: Fields = {
  Model: text('Model', 'Name of the pump, once each.', { required: true, unique: true, longest: 40 }),
  Power_hp: number('Power', '', { least: 0.1, most: 10, required: true }),
  Voltage_V: number('Voltage', '', { least: 110, most: 480, required: true }),
  Phases: number('Phases', '', { least: 1, most: 3, only: [1, 3], default: 1 }),
  ...Object.fromEntries(points.map((at) => [`Flow${at}_gpm`, number(`Flow ${at}`, at === 1 ? 'Curve point 1: no flow.' : 'Ascending.', { least: 0, most: 2000, required: true })])),
  ...Object.fromEntries(points.map((at) => [`Head${at}_ftw`, number(`Head ${at}`, at === 1 ? 'Shut-off head.' : 'Descending.', { least: 0, most: 5000, required: true })])),
  Price_usd: number('Price', '', { least: 0, most: 100_000, required: true }),
}

const roofFields: Fields = {
  Surface: text('Surface', 'Name of the roof surface.', { required: true, unique: true, longest: 40 }),
  Runoff: number('Runoff', 'Long-term runoff coefficient.', { least: 0, most: 1, required: true }),
  Source: text('Source', 'Where the coefficient is from.', { longest: 300 }),
}

const rainFields: Fields = {
  Station: text('Station', 'Name of the rain station.', { required: true, unique: true, longest: 60 }),
  ...Object.fromEntries(monthNames.map((month) => [`${month}_in`, number(month, 'Mean rain of the month.', { least: 0, most: 200, required: true })])),
  Source: text('Source', 'Where the record is from.', { longest: 300 }),
}

export const sections = ['Earthwork', 'Tanks', 'Ties between tanks', 'Inlet and overflow', 'Water line', 'Pump and drop', 'Power', 'Stone and backfill', 'Test', 'Labor and equipment', 'Delivery'] as const
export type Section = (typeof sections)[number]

const itemFields: Fields = {
  Code: text('Code', 'Once each; braces take in a field, as PE-{WaterLineSize}. The price is looked up by it.', { required: true, unique: true, longest: 60 }),
  Section: oneOf('Section', 'Where the line stands on the takeoff.', sections, { required: true }),
  Description: text('Description', 'Braces take in a field or result.', { required: true, longest: 160 }),
  When: rule('When', 'The line is left out where this is FALSE; empty means always.'),
  Quantity: rule('Quantity', 'Net quantity, a formula over the names of fields and results.', { required: true }),
  Unit: text('Unit', 'As priced.', { required: true, longest: 20 }),
  Waste: number('Waste', 'Share added to the net quantity.', { least: 0, most: 1, default: 0 }),
  Lot: number('Lot', 'Smallest amount sold.', { least: 0.01, most: 100_000, default: 1 }),
  LaborHours: number('Labor hours', 'Crew hours for one unit of net quantity.', { least: 0, most: 1000, default: 0 }),
  Price: rule('Price', 'A formula, where the price is not in the sheet Prices under the code.'),
  Why: text('Why', 'The reason in words; braces take in a field or result, with % behind the name for a share.', { required: true, longest: 300 }),
}

const priceFields: Fields = {
  Code: text('Code', 'As on the sheet Items, braces filled in.', { required: true, unique: true, longest: 60 }),
  Description: text('Description', '', { longest: 160 }),
  Unit: text('Unit', '', { longest: 20 }),
  Price_usd: number('Price', 'For one unit; an item whose price is empty cannot be taken off.', { least: 0, most: 1_000_000 }),
}

export const officeTables = {
  Jobs: { title: 'Jobs, one row a job', fields: jobFields as Fields },
  Tanks: { title: 'Precast tank models', fields: tankFields },
  Pumps: { title: 'Submersible pumps, five points of the curve each', fields: pumpFields },
  Roofs: { title: 'Roof surfaces', fields: roofFields },
  Rain: { title: 'Rain stations, monthly means', fields: rainFields },
  Items: { title: 'Items: the rules of the takeoff', fields: itemFields },
  Prices: { title: 'Prices', fields: priceFields },
} as const satisfies Record<string, { title: string; fields: Fields }>
export type TableName = keyof typeof officeTables
export const tableNames = Object.keys(officeTables) as TableName[]
export const fieldsOf = (table: TableName): Fields => officeTables[table].fields
export const keyColumn = (table: TableName): string => Object.keys(officeTables[table].fields)[0]!
export type { Field }
