/** The tables that the office owns: their columns, what each may hold, and what an empty cell means. */
import { conduitSizeKey, wireKey } from '../keys.js'
import { linePipeKey, lineSizeKey } from './lineKeys.js'
import { BELOW_FROST_IN } from './frost.js'
import { bareLetters, date, keyed, number, oneOf, rowOf, rule, text, type Field, type Fields } from './fields.js'

export const monthNames = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'] as const
export const CURVE_POINTS = 5
/** Rows below the heading of each table that formulas look through, so that rows added later are found. */
export const MOST_ROWS = { Jobs: 1000, Tanks: 300, Pumps: 300, Roofs: 300, Rain: 300, Items: 600, Prices: 1000, Catchments: 1000, Uses: 1000, PressureTanks: 100, Cables: 100, Cranes: 100, RainDays: 40_000, House: 5, Variants: 1000, Headings: 300 } as const
/** Points of a crane's load chart that its row holds. */
export const CRANE_RADII_FT = [20, 30, 40, 50, 60, 80] as const
const points = Array.from({ length: CURVE_POINTS }, (_, at) => at + 1)
const LONGEST_JOB_NAME = 23
/** Tanks in one row, at the most. */
export const MOST_TANKS = 12
const countTo = (most: number) => ({ least: 1, most, only: Array.from({ length: most }, (_, at) => at + 1) })
/** What may pass over the tanks, from the lightest to the heaviest. */
export const trafficKinds = ['none', 'lawn machines', 'cars', 'trucks'] as const

/** The columns of Jobs. Names are what item rules use; the unit is the last part of the name. */
export const jobFields = {
  // What a job cannot do without, and site figures that nobody may guess; the rest has defaults, and its columns are folded.
  Job: text('Job', 'Short name; it becomes part of the sheet names.', { required: true, unique: true, longest: LONGEST_JOB_NAME }),
  Site: text('Site', 'Where it is, for people.'),
  Date: date('Date', 'Date of the quote.'),
  RoofArea_ft2: number('Roof area', 'Plan (horizontal) area that drains to the tanks.', { least: 1, most: 1_000_000, required: true }),
  RoofSurface: rowOf('Roofs', 'Roof surface', 'A surface of the sheet Roofs.', { default: 'metal' }),
  RainStation: rowOf('Rain', 'Rain station', 'A station of the sheet Rain.', { required: true }),
  RainIntensity_in_per_h: number('Rain intensity', 'Design rain of the adopted code for this place.', { least: 0.1, most: 20, default: 4 }),
  People: number('People', 'People served.', { least: 0, most: 10_000, required: true }),
  TankModel: rowOf('Tanks', 'Tank model', 'A model of the sheet Tanks.', { required: true }),
  TankCount: number('Tanks', 'Leave empty to take the fewest that reach the wanted reliability.', countTo(MOST_TANKS)),
  InletRun_ft: number('Inlet run', 'Drain from the downspouts to the far tank, along the ground.', { least: 0, most: 2000, default: 20 }),
  DownspoutRise_ft: number('Rise to the downspouts', 'How much higher the ground is at the downspouts than at the tanks; below zero where it is lower. Empty: level.', { least: -50, most: 200, default: 0 }),
  OverflowRun_ft: number('Overflow run', 'Drain from the overflow to where it may spill, along the ground.', { least: 0, most: 2000, default: 20 }),
  OutfallDrop_ft: number('Fall to the outfall', 'How much lower the ground is where the overflow spills than at the tanks.', { least: -20, most: 500, default: 0 }),
  WaterLineRun_ft: number('Water-line run', 'Buried line from the pump tank to the house, along the ground.', { least: 1, most: 5000, default: 100 }),
  WaterLineRise_ft: number('Rise to the house', 'Height of the house connection above the ground at the tanks.', { least: -200, most: 500, default: 5 }),
  PowerRun_ft: number('Power run', 'Feed from the panel to the tank edge, along the ground.', { least: 1, most: 5000, default: 100 }),
  GroundwaterDepth_ft: number('Groundwater depth', 'Depth of the highest groundwater below grade. Empty means not known: the verdict on uplift then says check.', { least: 0, most: 200, default: 200 }),
  SoilClass: oneOf('Soil class', 'As classed by the competent person: rock, A, B or C. C where nobody has classed it.', ['rock', 'A', 'B', 'C'], { default: 'C' }),
  FootingAway_ft: number('Nearest footing', 'Footing, wall, pole or pavement nearest to the tank walls. Empty: not measured.', { least: 0, most: 1000, default: 1000 }),
  FrostDepth_in: number('Frost depth', 'As the adopted code gives it for this place; 0 where there is none.', { least: 0, most: 120, default: 0 }),
  HouseFlow_gpm: number('House flow', 'Flow wanted at the house.', { least: 0.5, most: 200, default: 8 }),
  HousePressure_psi: number('House pressure', 'Pressure wanted at the house at that flow.', { least: 0, most: 150, default: 45 }),
  Markup: number('Markup', 'Profit, as a share of the order cost.', { least: 0, most: 3, default: 0.2 }),
  Tax: number('Tax', 'On cost with markup.', { least: 0, most: 0.5, default: 0 }),

  // Folded.
  FirstFlush_in: number('First flush', 'Depth taken off each day of rain; where only monthly means are known, of as many as such a month usually has. Leave 0 when the roof coefficient already holds the loss.', { least: 0, most: 10, default: 0 }),
  FirstFlushEach: oneOf('First flush each', 'How often the diverter fills again: each day of rain, or once in a wet spell.', ['day', 'wet spell'], { default: 'day' }),
  FilterShare: number('Filter share', 'Share of the water that passes the filter.', { least: 0, most: 1, above: true, default: 0.9 }),
  FilterFall_in: number('Filter fall', 'Fall of the water through the inlet filter, as its maker says.', { least: 0, most: 36, default: 0 }),
  UsePerPerson_gal_per_day: number('Use a person', 'Indoor use a day for each person.', { least: 0, most: 500, default: 45 }),
  OutdoorUse_gal_per_day: number('Outdoor use', 'Garden and other use a day, the year round; use that changes by month goes into the sheet Uses.', { least: 0, most: 100_000, default: 0 }),
  DailyProof: oneOf('Daily proof', 'yes writes the daily balance as formulas too, a row a day, on a sheet of its own: long, and needed only where somebody wants to check it.', ['no', 'yes'], { default: 'no' }),
  WantedReliability: number('Wanted reliability', 'Share of the demand that the tanks should meet.', { least: 0, most: 1, default: 0.9 }),
  SecondModel: rowOf('Tanks', 'Second model', 'Another model of the sheet Tanks at the far end of the row, where the roof water enters; as high, with as thick a floor and lid and water as deep. Empty: all tanks are of one model.'),
  SecondCount: number('Tanks of the second model', 'How many of the tanks of the row are of it.', { ...countTo(MOST_TANKS - 1), default: 1 }),
  DeadDepth_in: number('Dead depth', 'Water under intake and ties, which is no storage.', { least: 0, most: 60, default: 9 }),
  TankGap_in: number('Gap between tanks', 'Clear distance between the walls of two tanks.', { least: 4, most: 120, default: 12 }),
  Cover_ft: number('Cover', 'Earth over the lids.', { least: 0, most: 20, default: 2 }),
  PitDrained: oneOf('Pit drained', 'yes only where a competent person classed the soil after the water was drawn down.', ['no', 'yes'], { default: 'no' }),
  Traffic: oneOf('Traffic', 'What may drive over the tanks.', trafficKinds, { default: 'none' }),
  BearingAllowed_psf: number('Bearing allowed', 'Of the ground under the bed, from the soil report or the adopted code (IBC Table 1806.2 gives 1,500 for clay; from memory).', { least: 200, most: 20_000, default: 1500 }),
  Altitude_ft: number('Altitude', 'Of the site; gives the log of the vacuum test its barometer.', { least: -300, most: 10_000, default: 0 }),
  Swell: number('Swell', 'Share by which dug earth grows.', { least: 0, most: 1, default: 0.25 }),
  InletTanks: number('Inlet tanks', 'Tanks that take roof water: 1, the far one, or 2, it and its neighbour. Leave empty to take what the storm asks for.', { least: 1, most: 2, only: [1, 2] }),
  DrainSize_in: number('Drain size', 'Nominal size of the inlet and overflow drains. Leave empty to take the smallest that carries the storm.', { least: 4, most: 8, only: [4, 6, 8] }),
  DrainPipe: oneOf('Drain pipe', 'Pipe of the inlet and overflow drains; 8 in is SDR 35.', ['PVC 40', 'PVC SDR 35'], { default: 'PVC 40' }),
  DrainSlope_in_per_ft: number('Drain slope', 'Fall of the inlet and overflow drains.', { least: 0.03, most: 6, default: 0.25 }),
  DrainTable: oneOf('Drain table', 'Family of codes whose drain capacities count: newer IPC (2015 on) figures n 0.010, older IPC and UPC 0.0155.', ['newer IPC', 'older IPC or UPC'], { default: 'newer IPC' }),
  WaterLinePipe: keyed(linePipeKey, 'Water-line pipe', 'Polyethylene, 160 psi at least.', { default: 'PE IPS 200' }),
  WaterLineSize: keyed(lineSizeKey, 'Water-line size', 'Nominal size.', { default: '1' }),
  LineFittings: oneOf('Line fittings', 'Must suit the pipe: insert fittings on IPS, compression with stiffeners on CTS. Leave empty to follow the pipe.', ['IPS insert', 'CTS compression']),
  TrenchDepth_in: number('Trench depth', `Of the water line and the power feed: below frost, and as the code asks. Empty: 36 in or, where that is deeper, so that the top of the line lies ${BELOW_FROST_IN} in below the frost.`, { least: 12, most: 144 }),
  PumpModel: rowOf('Pumps', 'Pump model', 'Leave empty to take the first of the sheet Pumps that meets the duty.'),
  CutIn_psi: number('Cut-in', 'Pressure at which the switch starts the pump.', { least: 5, most: 150, default: 40 }),
  CutOut_psi: number('Cut-out', 'Pressure at which it stops.', { least: 10, most: 200, default: 60 }),
  LeastRun_min: number('Least run', 'How long the pump should run at each start.', { least: 0.25, most: 10, default: 1 }),
  PressureTank_gal: number('Pressure tank', 'Volume. Leave empty to take the smallest of the sheet PressureTanks that gives the least run.', { least: 1, most: 1000 }),
  TreatmentLoss_psi: number('Treatment loss', 'Of filters and lamp at the house flow, cartridges at the end of their life; 0 where there is no treatment.', { least: 0, most: 60, default: 0 }),
  Backflow: oneOf('Backflow', 'Where a public supply can reach the house.', ['none', 'air gap', 'preventer'], { default: 'none' }),
  BackflowLoss_psi: number('Backflow loss', 'Of a preventer in the line, at the house flow.', { least: 0, most: 30, default: 12 }),
  HouseSet: oneOf('House set', 'Valve, drain and gauge at the house, where this job brings them.', ['no', 'yes'], { default: 'no' }),
  PipeC: number('Pipe C', 'Hazen–Williams C that duty and switch are figured with; flow, surge and highest pressure take new pipe, 150.', { least: 100, most: 150, default: 140 }),
  WaterTemperature_F: number('Water temperature', 'Warmest water in the line; lowers the rating of polyethylene above 77 °F.', { least: 33, most: 122, default: 60 }),
  Voltage_V: number('Voltage', 'Of the pump circuit.', { least: 110, most: 480, default: 230 }),
  SupplyPhases: number('Phases of the supply', 'At the panel: 1, or 3 where the site has three-phase power.', { least: 1, most: 3, only: [1, 3], default: 1 }),
  DropLimit: number('Drop limit', 'Voltage drop allowed, as a share.', { least: 0.005, most: 0.1, default: 0.03 }),
  CableMetal: oneOf('Cable metal', 'Of the pump feed, which goes down into the water: copper.', ['copper', 'aluminum'], { default: 'copper' }),
  CableSize: keyed(wireKey, 'Cable size', 'Leave empty to take the smallest that keeps the drop limit and the ampacity.'),
  CableSlack_ft: number('Cable slack', 'Left in the tank and under the drop, so that settling draws slack.', { least: 0, most: 100, default: 10 }),
  ConduitSize: keyed(conduitSizeKey, 'Conduit size', 'PVC conduit through the riser sleeve.', { default: '1' }),
  BedThickness_in: number('Bed thickness', 'Levelled stone under the tanks.', { least: 2, most: 36, default: 6 }),
  WorkingRoom_ft: number('Working room', 'From the tank walls to the foot of the pit walls.', { least: 0.5, most: 10, default: 2 }),
  StoneOverLine_in: number('Stone over the line', 'Height of the pump-end stone over the water line.', { least: 0, most: 36, default: 6 }),
  TestVacuum_inHg: number('Test vacuum', 'Level of the vacuum test the contract names.', { least: 1, most: 10, default: 4 }),
  TestHold_min: number('Hold time', 'How long the gauge is watched.', { least: 1, most: 120, default: 5 }),
  Dose_mg_per_L: number('Dose', 'Free chlorine for the first disinfection of tanks and line.', { least: 1, most: 200, default: 50 }),
  BleachStrength: number('Bleach strength', 'Sodium hypochlorite, weight by volume, unscented, as its label says.', { least: 0.01, most: 0.15, default: 0.0525 }),
  TestLoss: number('Loss allowed', 'Share of the test vacuum that may be lost, as the rule named in the contract says; the sheet Published tables lists several.', { least: 0, most: 0.5, default: 0 }),
  EarthworkBy: oneOf('Earthwork by', 'own crew pays hours and machines; subcontract pays the unit prices.', ['own crew', 'subcontract'], { default: 'own crew' }),
  CrewSize: number('Crew size', 'People; gives the days of the job and changes no cost.', { least: 1, most: 20, default: 3 }),
  CraneModel: rowOf('Cranes', 'Crane', 'Leave empty to take the first of the sheet Cranes that lifts a tank at its radius.'),
  LaborRate_usd_per_h: number('Labor rate', 'One hour of one person.', { least: 0, most: 1000, default: 62 }),
  Overhead: number('Overhead', 'Share of the order cost.', { least: 0, most: 1, default: 0 }),
  With: text('With', 'Sets of items that this job takes in, by name, commas between: see the column Set of Items.', { longest: 200 }),
  Without: text('Without', 'Codes of items that this job leaves out, or a section of them, commas between.', { longest: 200 }),
  CrewLanguage: oneOf('Crew language', 'What the Crew sheet says beside English.', ['English', 'English and Spanish'], { default: 'English' }),
  FormerName: text('Former name', 'What this job was called before: what was typed on its sheets under that name comes along.', { longest: LONGEST_JOB_NAME }),
} as const satisfies Fields
export type JobFieldName = keyof typeof jobFields
/** The first of the columns of Jobs that are folded together: each of them has a default. */
const FIRST_FOLDED: JobFieldName = 'FirstFlush_in'

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
  Ports: number('Upper ports', 'Cast openings for inlet and overflow.', { least: 0, most: 8, default: 3 }),
  Port_in: number('Port size', 'Nominal size of an upper port.', { least: 3, most: 12, only: [3, 4, 6, 8], default: 4 }),
  VacuumLimit_inHg: number('Vacuum limit', 'Highest test vacuum that the maker allows.', { least: 0.5, most: 15, default: 4 }),
  Traffic: oneOf('Traffic', 'What the maker allows over the tank.', trafficKinds, { default: 'none' }),
  MostCover_ft: number('Most cover', 'Deepest earth cover the maker allows.', { least: 0, most: 40, default: 4 }),
  WaterOutside_ft: number('Water outside', 'Groundwater over its base that the maker designed the empty tank for.', { least: 0, most: 60, default: 0 }),
  Weight_lb: number('Weight', 'Empty, from the maker.', { least: 100, most: 200_000, required: true }),
  Price_usd: number('Price', 'Price of one tank at the plant; delivery has a line of its own.', { least: 0, most: 1_000_000, required: true }),
}

const pumpFields: Fields = {
  Model: text('Model', 'Name of the pump, once each.', { required: true, unique: true, longest: 40 }),
  Power_hp: number('Power', '', { least: 0.1, most: 10, required: true }),
  Voltage_V: number('Voltage', '', { least: 110, most: 480, required: true }),
  Phases: number('Phases', '', { least: 1, most: 3, only: [1, 3], default: 1 }),
  Wires: number('Wires', 'Of a single-phase motor, beside the ground: 2, or 3 with a control box.', { least: 2, most: 3, only: [2, 3], default: 2 }),
  Current_A: number('Current', 'Of the nameplate at the service factor, where it is more than the code’s table says.', { least: 0, most: 200, default: 0 }),
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

const rainDayFields: Fields = { Date: { ...date('Date', 'Ascending, once each; an empty cell is a day without a reading.'), required: true } }

export const sections = ['Earthwork', 'Tanks', 'Ties between tanks', 'Inlet and overflow', 'Water line', 'Pump and drop', 'Power', 'Stone and backfill', 'Test', 'Labor and equipment', 'Delivery'] as const
export type Section = (typeof sections)[number]
/** The name of ours that is meant, whatever its capitals and spaces; else as the office writes it. */
export const sectionNamed = (name: string): string => sections.find((known) => bareLetters(known) === bareLetters(name)) ?? name.trim()

export const itemKinds = ['material', 'labor', 'equipment', 'subcontract', 'other'] as const
export type ItemKind = (typeof itemKinds)[number]

const catchmentFields: Fields = {
  Job: rowOf('Jobs', 'Job', 'The job that it drains to; added to the roof of its row.', { required: true }),
  Area_ft2: number('Area', 'Plan (horizontal) area.', { least: 1, most: 1_000_000, required: true }),
  Surface: rowOf('Roofs', 'Surface', 'A surface of the sheet Roofs.', { required: true }),
  Inlet: oneOf('Inlet', 'Tank that it drains into: the far one, or its neighbour.', ['far', 'next'], { default: 'far' }),
}

const useFields: Fields = {
  Job: rowOf('Jobs', 'Job', 'The job that it is drawn from; added to the use of its row.', { required: true }),
  Use: text('Use', 'What for.', { longest: 60 }),
  ...Object.fromEntries(monthNames.map((month) => [`${month}_gal_per_day`, number(month, 'Use a day in that month.', { least: 0, most: 100_000, default: 0 })])),
}

const pressureTankFields: Fields = {
  Model: text('Model', 'Name of the pressure tank, once each.', { required: true, unique: true, longest: 40 }),
  Volume_gal: number('Volume', 'Total volume.', { least: 1, most: 1000, required: true }),
  Rating_psi: number('Rating', 'Highest pressure, of its plate.', { least: 30, most: 300, default: 100 }),
  Price_usd: number('Price', '', { least: 0, most: 100_000, required: true }),
}

const cableFields: Fields = {
  Size: keyed(wireKey, 'Size', 'AWG, once each.', { required: true, unique: true }),
  Diameter_in: number('Diameter', 'Outside, two conductors and ground; of a flat cable its wide side. A third conductor is figured beside them.', { least: 0.1, most: 4, required: true }),
}

const craneFields: Fields = {
  Model: text('Crane', 'Name of the crane, once each.', { required: true, unique: true, longest: 40 }),
  ...Object.fromEntries(CRANE_RADII_FT.map((radius) => [`At${radius}_lb`, number(`At ${radius} ft`, 'Load by its chart at that radius, hook block off; 0 where it does not reach.', { least: 0, most: 500_000, default: 0 })])),
  Hour_usd: number('An hour', 'With operator and rigger.', { least: 0, most: 5000, required: true }),
  Travel_usd: number('Travel', 'To the site and back.', { least: 0, most: 50_000, default: 0 }),
}

const itemFields: Fields = {
  Code: text('Code', 'Once each; braces take in a field, as PE-{WaterLineSize}. The price is looked up by it.', { required: true, unique: true, longest: 60 }),
  Section: text('Section', 'Where the line stands on the takeoff. A name of your own makes a section behind ours.', { required: true, longest: 40, suggested: sections }),
  Description: text('Description', 'Braces take in a field or result.', { required: true, longest: 160 }),
  When: rule('When', 'The line is left out where this is FALSE; empty means always.'),
  Quantity: rule('Quantity', 'Net quantity, a formula over the names of fields and results.', { required: true }),
  Unit: text('Unit', 'As priced.', { required: true, longest: 20 }),
  Waste: number('Waste', 'Share added to the net quantity.', { least: 0, most: 1, default: 0 }),
  Lot: number('Lot', 'Smallest amount sold.', { least: 0.01, most: 100_000, default: 1 }),
  Pieces: rule('Pieces', 'Count of equal pieces that a length in ft is cut into: sticks of one lot each are ordered so that the pieces come out of them. Empty: the length comes off as it comes.'),
  Stock: text('Stock', 'What the pieces are cut from, where several lines share it; braces take in a field. Empty: the code.', { longest: 80 }),
  LaborHours: number('Labor hours', 'Hours of one person for one unit of net quantity.', { least: 0, most: 1000, default: 0 }),
  Price: rule('Price', 'A formula, where the price is not in the sheet Prices under the code.'),
  Kind: oneOf('Kind', 'What the money buys.', itemKinds, { default: 'material' }),
  PaidBy: oneOf('Paid by', 'earthwork: the unit price counts where a subcontractor digs, the hours where the own crew does; never both.', ['line', 'earthwork'], { default: 'line' }),
  Allowance: oneOf('Allowance', 'yes: the Quote says quantity and unit price of the line, to be adjusted by what it comes to.', ['no', 'yes'], { default: 'no' }),
  Set: text('Set', 'Name of a set: the line is taken only where a job names the set in With. Empty: every job.', { longest: 40 }),
  Why: text('Why', 'The reason in words; braces take in a field or result, with % behind the name for a share.', { required: true, longest: 300 }),
}

const priceFields: Fields = {
  Code: text('Code', 'As on the sheet Items, braces filled in.', { required: true, unique: true, longest: 60 }),
  Description: text('Description', '', { longest: 160 }),
  Unit: text('Unit', '', { longest: 20 }),
  Price_usd: number('Price', 'For one unit; an item whose price is empty cannot be taken off.', { least: 0, most: 1_000_000 }),
  Supplier: text('Supplier', 'The sheet Order lists what to order by it.', { longest: 60 }),
  PriceDate: date('Price date', 'When the price was asked or read.'),
  PriceSource: text('Price source', 'Who gave it, or where it stood.', { longest: 120 }),
}

const variantFields: Fields = {
  Job: rowOf('Jobs', 'Job', 'The job that it is a variant of.', { required: true }),
  Variant: text('Variant', 'Its name; rows with the same name belong together.', { required: true, longest: 60 }),
  Field: text('Field', 'A column of Jobs that is another one here, as TankModel.', { required: true, longest: 40 }),
  Value: text('Value', 'What stands there in this variant.', { required: true, longest: 120 }),
  OnQuote: oneOf('On the quote', 'yes in a row of it: the Quote offers the variant as an alternate, with its difference in price.', ['no', 'yes'], { default: 'no' }),
}

const houseFields: Fields = {
  Name: text('Name', 'Of the firm; it heads Quote, Test and Handover.', { required: true, unique: true, longest: 80 }),
  Address: text('Address', '', { longest: 160 }),
  Contact: text('Contact', 'Telephone and mail.', { longest: 120 }),
  Licence: text('Licence', 'Number, where the trade needs one.', { longest: 80 }),
  Payment: text('Payment', 'Terms of payment, as the quote says them.', { longest: 200 }),
  ValidFor_day: number('Valid for', 'Days that a quote holds.', { least: 1, most: 365, default: 30 }),
  Paper: oneOf('Paper', 'Of all sheets of a job.', ['letter', 'A4'], { default: 'letter' }),
  OverheadOn: text('Overhead on', 'Kinds of cost, commas between, or all.', { longest: 80, default: 'all' }),
  MarkupOn: text('Markup on', 'Kinds of cost, commas between, or all.', { longest: 80, default: 'all' }),
  TaxOn: text('Tax on', 'Kinds of cost, commas between, or all; the tax takes in the overhead and markup that lie on them.', { longest: 80, default: 'all' }),
  PriceDates: oneOf('Price dates', 'needed: a price without a date cannot be used.', ['as they are', 'needed'], { default: 'as they are' }),
  OldestPrice_day: number('Oldest price', 'A price that is older, against the date of the job, is pointed out.', { least: 1, most: 3650, default: 365 }),
  PriceMove: number('Price move', 'A price that moved by a larger share since the takeoff was last made is pointed out.', { least: 0.01, most: 10, default: 0.25 }),
}

const headingFields: Fields = {
  Table: text('Table', 'The sheet on which the heading stands, as Jobs.', { required: true, longest: 40 }),
  Heading: text('Heading', 'As the office has it.', { required: true, longest: 80 }),
  Field: text('Field', 'The column of ours that it is, as Cover_ft. Empty: a column of your own.', { longest: 60 }),
}

export const officeTables = {
  Jobs: { title: 'Jobs, one row a job', fields: jobFields as Fields },
  Tanks: { title: 'Precast tank models', fields: tankFields },
  Pumps: { title: 'Submersible pumps, five points of the curve each', fields: pumpFields },
  Roofs: { title: 'Roof surfaces', fields: roofFields },
  Rain: { title: 'Rain stations, monthly means', fields: rainFields },
  Items: { title: 'Items: the rules of the takeoff', fields: itemFields },
  Prices: { title: 'Prices', fields: priceFields },
  Catchments: { title: 'Further roofs of a job', fields: catchmentFields },
  Uses: { title: 'Use that changes by month', fields: useFields },
  PressureTanks: { title: 'Pressure tanks, smallest first', fields: pressureTankFields },
  Cables: { title: 'Submersible cables', fields: cableFields },
  Cranes: { title: 'Cranes: what they lift at a radius', fields: craneFields },
  Variants: { title: 'Variants of a job, shown side by side on its sheet Options', fields: variantFields },
  House: { title: 'The house: what stands at the head of papers, and how money is figured; one row', fields: houseFields },
  Headings: { title: 'Headings that you gave other names', fields: headingFields },
  RainDays: { title: 'Daily rain: a date a row, a station a column, in inches unless its heading says mm', fields: rainDayFields },
} as const satisfies Record<string, { title: string; fields: Fields }>
export type TableName = keyof typeof officeTables
export const tableNames = Object.keys(officeTables) as TableName[]
/** Tables that a workbook may lack: none of their rows is needed, and older workbooks have none of them. */
export const optionalTables: readonly TableName[] = ['Catchments', 'Uses', 'PressureTanks', 'Cables', 'Cranes', 'Variants', 'House', 'Headings', 'RainDays']
/** Written where they hold something alone: no formula points into them. */
const seldomTables: readonly TableName[] = ['Headings']
export const isSeldom = (table: TableName): boolean => seldomTables.includes(table)
/** Optional tables that formulas point into: a workbook without one gets it, empty. */
export const wantedTables: readonly TableName[] = optionalTables.filter((name) => !isSeldom(name))
export const requiredTables: readonly TableName[] = tableNames.filter((name) => !optionalTables.includes(name))
export const fieldsOf = (table: TableName): Fields => officeTables[table].fields
export const keyColumn = (table: TableName): string => Object.keys(officeTables[table].fields)[0]!
/** Whether a row of headings is that of a table: its key, and three quarters of its columns. */
export function isHeadingOf(table: TableName, words: readonly string[]): boolean {
  const columns = Object.keys(fieldsOf(table))
  const found = columns.filter((column) => words.includes(column))
  return columns.length > 2 && found.length >= 0.75 * columns.length && words.includes(keyColumn(table))
}
/** Columns of a table that a new sheet folds together, as places among its own; nothing where all are shown. */
export function foldedFields(table: TableName): { first: number; last: number } | undefined {
  if (table !== 'Jobs') return undefined
  const names = Object.keys(jobFields)
  return { first: names.indexOf(FIRST_FOLDED), last: names.length - 1 }
}
export type { Field }
