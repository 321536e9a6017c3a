/** A scenario of our own: an invented county, tank models, pumps and prices. Nothing here names a real place or product. */
import { FIRST_ROW } from './firstRow.js'
import { roofs } from '../tables/roofs.js'
import { citationText } from '../sources.js'
import { defaultItems } from './defaultItems.js'
import { demoRain } from './demoRain.js'
import type { CellValue } from './fields.js'
import type { RawOffice, RawTable } from './office.js'
import { fieldsOf, jobFields, monthNames, tableNames, type TableName } from './officeTables.js'

type Cells = Readonly<Record<string, CellValue>>

const jobs: readonly Cells[] = [
  { Job: 'Fernlow 12', Site: 'Fernlow Lane 12, Alder Reach', Date: '2026-11-02', RoofArea_ft2: 2400, RainStation: 'Alder Reach', People: 3, UsePerPerson_gal_per_day: 40, WantedReliability: 0.85, TankModel: 'Quern 1800', SoilClass: 'B', GroundwaterDepth_ft: 18, FootingAway_ft: 22, FrostDepth_in: 18, InletRun_ft: 25, OverflowRun_ft: 40, DownspoutRise_ft: 0, OutfallDrop_ft: 5, RainIntensity_in_per_h: 2.5, WaterLineRun_ft: 85, WaterLineRise_ft: 5, HouseFlow_gpm: 8, HousePressure_psi: 45, PowerRun_ft: 95 },
  { Job: 'Pipit Hollow', Site: 'Pipit Hollow, cabin by the creek, below its tank', Date: '2026-11-04', RoofArea_ft2: 1100, RoofSurface: 'asphalt shingle', RainStation: 'Low Fallow', People: 2, UsePerPerson_gal_per_day: 35, TankModel: 'Quern 1200', TankCount: 1, Cover_ft: 2, GroundwaterDepth_ft: 4, SoilClass: 'C', FootingAway_ft: 18, FrostDepth_in: 12, InletRun_ft: 18, OverflowRun_ft: 20, DownspoutRise_ft: 0, OutfallDrop_ft: 6, RainIntensity_in_per_h: 3, WaterLineRun_ft: 160, WaterLineRise_ft: -24, HouseFlow_gpm: 6, HousePressure_psi: 40, CutIn_psi: 30, CutOut_psi: 50, PowerRun_ft: 170 },
  { Job: 'Thistle Brow', Site: 'Thistle Brow, farmhouse, barn and garden', Date: '2026-11-09', RoofArea_ft2: 3800, RainStation: 'Stonecup Hill', People: 6, TankModel: 'Quern 2600', TankCount: 5, SoilClass: 'A', GroundwaterDepth_ft: 25, FootingAway_ft: 55, FrostDepth_in: 24, Swell: 0.3, InletRun_ft: 60, OverflowRun_ft: 80, DownspoutRise_ft: 0, OutfallDrop_ft: 9, DrainSlope_in_per_ft: 0.25, RainIntensity_in_per_h: 3.2, WaterLineRun_ft: 320, WaterLineRise_ft: 38, WaterLineSize: '1-1/4', ConduitSize: '1-1/4', HouseFlow_gpm: 10, HousePressure_psi: 45, CutIn_psi: 45, CutOut_psi: 65, TreatmentLoss_psi: 8, Backflow: 'air gap', EarthworkBy: 'subcontract', PowerRun_ft: 340, Markup: 0.18, Tax: 0.06 },
  { Job: 'Wicket Mill', Site: 'Wicket Mill workshop', Date: '2026-11-16', RoofArea_ft2: 3600, RoofSurface: 'smooth membrane', RainStation: 'Alder Reach', People: 4, UsePerPerson_gal_per_day: 25, TankModel: 'Quern 1800', TankCount: 3, TankGap_in: 14, Cover_ft: 3, GroundwaterDepth_ft: 6, SoilClass: 'C', FootingAway_ft: 28, FrostDepth_in: 18, InletRun_ft: 30, OverflowRun_ft: 25, DownspoutRise_ft: 0, OutfallDrop_ft: 5.5, RainIntensity_in_per_h: 4.5, WaterLineRun_ft: 140, WaterLineRise_ft: 8, HouseFlow_gpm: 8, HousePressure_psi: 45, PowerRun_ft: 150, CableMetal: 'copper', BedThickness_in: 8, LaborRate_usd_per_h: 58, Tax: 0.06 },
  { Job: 'Ember Yard', Site: 'Ember Yard, school garden', Date: '2026-11-18', RoofArea_ft2: 9800, RoofSurface: 'flat gravel', RainStation: 'Low Fallow', People: 0, OutdoorUse_gal_per_day: 260, WantedReliability: 0.8, TankModel: 'Quern 2600', TankCount: 6, TankGap_in: 10, SoilClass: 'B', InletRun_ft: 90, OverflowRun_ft: 70, DownspoutRise_ft: 0, OutfallDrop_ft: 6, RainIntensity_in_per_h: 2.2, GroundwaterDepth_ft: 14, FootingAway_ft: 85, FrostDepth_in: 12, DrainPipe: 'PVC SDR 35', WaterLineRun_ft: 210, WaterLineRise_ft: 12, HouseFlow_gpm: 12, HousePressure_psi: 35, CutIn_psi: 30, CutOut_psi: 50, WaterLineSize: '1-1/4', PowerRun_ft: 180, TestHold_min: 10 },
]

/** The barn of Thistle Brow drains into the tank beside the far one. */
const catchments: readonly Cells[] = [{ Job: 'Thistle Brow', Area_ft2: 2400, Surface: 'metal', Inlet: 'next' }]
const uses: readonly Cells[] = [
  { Job: 'Thistle Brow', Use: 'Kitchen garden', May_gal_per_day: 60, Jun_gal_per_day: 110, Jul_gal_per_day: 140, Aug_gal_per_day: 140, Sep_gal_per_day: 70 },
]
const pressureTanks: readonly Cells[] = [
  { Model: 'Tarn 20', Volume_gal: 20, Rating_psi: 100, Price_usd: 215 }, { Model: 'Tarn 34', Volume_gal: 34, Rating_psi: 100, Price_usd: 298 }, { Model: 'Tarn 52', Volume_gal: 52, Rating_psi: 100, Price_usd: 385 },
  { Model: 'Tarn 86', Volume_gal: 86, Rating_psi: 100, Price_usd: 560 }, { Model: 'Tarn 119', Volume_gal: 119, Rating_psi: 100, Price_usd: 745 },
]
const variants: readonly Cells[] = [
  { Job: 'Wicket Mill', Variant: 'larger tanks', Field: 'TankModel', Value: 'Quern 2600' },
  { Job: 'Wicket Mill', Variant: 'larger tanks', Field: 'TankCount', Value: 2 },
  { Job: 'Wicket Mill', Variant: 'one shorter tank', Field: 'SecondModel', Value: 'Quern 1400', OnQuote: 'yes' },
]
const house: readonly Cells[] = [
  { Name: 'Underbrook Cistern Setters', Address: '4 Mill Lane, Alder Reach', Contact: '555-0142, office@underbrook.example', Licence: 'Contractor 000 417 (demo)', Payment: 'A third with the order, a third when the tanks stand, the rest at the hand-over' },
]
const cables: readonly Cells[] = [
  { Size: '14', Diameter_in: 0.39 }, { Size: '12', Diameter_in: 0.43 }, { Size: '10', Diameter_in: 0.47 }, { Size: '8', Diameter_in: 0.6 }, { Size: '6', Diameter_in: 0.72 },
]
const cranes: readonly Cells[] = [
  { Model: 'Heron 26', At20_lb: 30_000, At30_lb: 19_500, At40_lb: 13_800, At50_lb: 10_200, At60_lb: 7800, At80_lb: 4500, Hour_usd: 165, Travel_usd: 180 },
  { Model: 'Heron 55', At20_lb: 62_000, At30_lb: 41_000, At40_lb: 29_000, At50_lb: 21_500, At60_lb: 17_000, At80_lb: 11_000, Hour_usd: 210, Travel_usd: 350 },
  { Model: 'Heron 90', At20_lb: 105_000, At30_lb: 72_000, At40_lb: 52_000, At50_lb: 40_000, At60_lb: 32_000, At80_lb: 22_000, Hour_usd: 290, Travel_usd: 650 },
]

const tanks: readonly Cells[] = [
  { Model: 'Quern 1200', Length_ft: 8, Width_ft: 5.5, Height_ft: 6, Wall_in: 4, Floor_in: 5, Lid_in: 5, WaterDepth_ft: 4.5, Coupling_in: 8, Openings: 1, Opening_in: 24, Ports: 3, VacuumLimit_inHg: 4, MostCover_ft: 3, WaterOutside_ft: 4, Weight_lb: 13400, Price_usd: 2150 },
  { Model: 'Quern 1400', Length_ft: 8, Width_ft: 6, Height_ft: 6.5, Wall_in: 4, Floor_in: 6, Lid_in: 6, WaterDepth_ft: 4.75, Coupling_in: 8, Openings: 1, Opening_in: 24, Ports: 3, VacuumLimit_inHg: 4, MostCover_ft: 4, WaterOutside_ft: 5, Weight_lb: 16100, Price_usd: 2480 },
  { Model: 'Quern 1800', Length_ft: 10, Width_ft: 6, Height_ft: 6.5, Wall_in: 4, Floor_in: 6, Lid_in: 6, WaterDepth_ft: 4.75, Coupling_in: 8, Openings: 1, Opening_in: 24, Ports: 3, VacuumLimit_inHg: 4, MostCover_ft: 4, WaterOutside_ft: 5, Weight_lb: 19200, Price_usd: 2890 },
  { Model: 'Quern 2600', Length_ft: 12, Width_ft: 7, Height_ft: 7, Wall_in: 5, Floor_in: 6, Lid_in: 7, WaterDepth_ft: 5.25, Coupling_in: 9, Openings: 2, Opening_in: 24, Ports: 3, VacuumLimit_inHg: 4, MostCover_ft: 4, WaterOutside_ft: 5, Weight_lb: 28500, Price_usd: 4120 },
]

const curve = (points: readonly (readonly [number, number])[]): Cells =>
  Object.fromEntries(points.flatMap(([flow, head], at) => [[`Flow${at + 1}_gpm`, flow], [`Head${at + 1}_ftw`, head]]))
const pumps: readonly Cells[] = [
  { Model: 'Wren 50', Power_hp: 0.5, Voltage_V: 115, Phases: 1, ...curve([[0, 138], [4, 130], [8, 115], [12, 90], [16, 50]]), Price_usd: 525 },
  { Model: 'Lark 50', Power_hp: 0.5, Voltage_V: 230, Phases: 1, ...curve([[0, 142], [4, 134], [8, 119], [12, 94], [16, 52]]), Price_usd: 540 },
  { Model: 'Lark 75', Power_hp: 0.75, Voltage_V: 230, Phases: 1, ...curve([[0, 198], [5, 184], [9, 166], [13, 136], [18, 80]]), Price_usd: 655 },
  { Model: 'Lark 100', Power_hp: 1, Voltage_V: 230, Phases: 1, ...curve([[0, 254], [6, 236], [11, 208], [16, 164], [22, 90]]), Price_usd: 790 },
  { Model: 'Lark 150', Power_hp: 1.5, Voltage_V: 230, Phases: 1, ...curve([[0, 342], [7, 318], [13, 276], [19, 210], [25, 118]]), Price_usd: 985 },
]

const months = (list: readonly number[]): Cells => Object.fromEntries(list.map((rain, at) => [`${monthNames[at]}_in`, rain]))
const rain: readonly Cells[] = [
  { Station: 'Alder Reach', ...months([5.8, 4.9, 4.8, 3.5, 2.5, 1.7, 0.9, 1.1, 2.0, 3.9, 5.6, 6.1]), Source: 'Invented for the demo' },
  { Station: 'Low Fallow', ...months([2.1, 2.0, 2.6, 2.9, 3.8, 3.9, 2.8, 2.6, 3.1, 2.7, 2.3, 2.2]), Source: 'Invented for the demo' },
  { Station: 'Stonecup Hill', ...months([4.9, 4.2, 4.4, 3.3, 2.7, 2.2, 1.4, 1.3, 2.1, 3.6, 5.0, 5.3]), Source: 'Invented for the demo' },
]

const price = (Code: string, Price_usd: number): Cells => ({ Code, Price_usd })
const prices: readonly Cells[] = [
  price('LOCATE', 0), price('LAYOUT', 45), price('STRIP', 1.8), price('DIG', 4.2), price('DIG-ROCK', 92), price('TRENCH-LINE', 12.6), price('TRENCH-LINE-ROCK', 186), price('TRENCH-DRAIN', 11.8), price('TRENCH-DRAIN-ROCK', 165), price('HAUL', 165), price('FENCE', 0.9), price('LADDER', 18), price('DEWATER', 140), price('TRENCH-BOX', 120),
  price('RISER', 62), price('RISER-LID', 118), price('LID-INSUL', 26), price('TANK-INSUL', 1.9), price('MASTIC', 1.35), price('SIGN', 14), price('VENT', 38), price('DOSE', 1.6), price('NEUTRALIZER', 9),
  price('TIE-PIPE', 4.85), price('TIE-BOOT', 27.5), price('TIE-CLAMP', 9.4), price('TIE-LUBE', 13),
  price('PORT-STUB', 4.85), price('PORT-CLAMP', 9.4), price('PORT-BEND', 13.8), price('DRAIN-PVC 40', 4.85), price('DRAIN-PVC SDR 35', 2.95), price('DRAIN-PVC 40-6', 9.4), price('DRAIN-PVC SDR 35-6', 5.6), price('DRAIN-PVC SDR 35-8', 9.8), price('DRAIN-BEND', 9.2), price('DRAIN-WYE', 34), price('DRAIN-BEND-6', 21), price('DRAIN-BEND-8', 39), price('DRAIN-WYE-6', 62), price('DRAIN-WYE-8', 98), price('DRAIN-CLEANOUT-6', 54), price('DRAIN-CLEANOUT-8', 88), price('FILTER', 240), price('DRAIN-CLEANOUT', 31), price('WASHER', 190), price('CALM', 54), price('FLAP', 72), price('OUTFALL', 34), price('PVC-CEMENT', 22), price('DRAIN-ADAPTER', 11.5), price('DRAIN-ADAPTER-6', 24), price('DRAIN-ADAPTER-8', 41), price('PORT-REDUCER', 18.5), price('PORT-REDUCER-3', 9.5), price('PORT-REDUCER-6', 27), price('PORT-STUB-6', 9.4), price('PORT-CLAMP-6', 14.6), price('PORT-BEND-6', 29), price('FLAP-6', 96),
  price('PE-PE IPS 160-1', 0.62), price('PE-PE IPS 200-1', 0.78), price('PE-PE IPS 160-1-1/4', 0.96), price('PE-PE IPS 200-1-1/4', 1.22), price('PE-PE IPS 200-1-1/2', 1.64), price('PE-PE IPS 200-2', 2.55), price('PE-PE CTS-1', 0.92), price('PE-PE CTS-1-1/4', 1.38),
  price('ADAPTER-MALE', 11.6), price('ADAPTER-HOUSE', 7.2), price('COUPLING', 5.4), price('CLAMP', 1.9), price('CTS-FITTING', 16.5), price('CTS-WALL', 19.5), price('CTS-COUPLING', 14.2), price('CTS-STIFFENER', 1.1), price('LINE-EARTH', 16), price('TAPE', 0.045), price('WALL-SLEEVE', 36), price('HOUSE-VALVE', 84), price('RELIEF', 42), price('PRESSURE-TANK', 365), price('TREATMENT', 780), price('REDUCER', 96), price('SIPHON-BREAK', 58), price('BACKFLOW', 215), price('AIR-GAP', 340),
  price('BUSHING', 12.4), price('NIPPLE', 15.2), price('PITLESS', 118), price('DROP-ADAPTER', 7.8), price('CHECK-VALVE', 33), price('PULL-ROD', 6.9), price('SAFETY-ROPE', 0.55), price('FLOAT', 64), price('CONTROL', 112), price('FLOAT-CABLE', 0.55), price('INTAKE', 47), price('THREAD-SEAL', 8.5),
  price('CABLE-copper-14', 1.05), price('CABLE-copper-12', 1.42), price('CABLE-copper-10', 2.1), price('CABLE-copper-8', 3.25), price('CABLE-copper-6', 4.9), price('CABLE-copper-14-3', 1.36), price('CABLE-copper-12-3', 1.85), price('CABLE-copper-10-3', 2.74), price('CABLE-copper-8-3', 4.2), price('CABLE-copper-6-3', 6.35), price('CABLE-aluminum-12', 1.1), price('CABLE-aluminum-10', 1.3), price('CABLE-aluminum-8', 1.75), price('CABLE-aluminum-6', 2.3),
  price('SLEEVE', 24), price('CONDUIT-3/4', 0.72), price('CONDUIT-1', 1.02), price('CONDUIT-1-1/4', 1.45), price('CONDUIT-BODY', 17.5), price('CONDUIT-FITTING', 1.9), price('CORD-GRIP', 8.8), price('SPLICE', 21), price('PROTECTION', 16), price('DISCONNECT', 128), price('ELECTRICIAN', 98),
  price('STONE-BED', 29.5), price('STONE-PUMP', 29.5), price('STONE-TIE', 29.5), price('STONE-DRAIN', 29.5), price('FABRIC', 0.28), price('BACKFILL', 3.4), price('IMPORT', 22), price('TRENCH-FILL', 2.8), price('PLACE', 6.5), price('SEED', 0.09),
  price('PLATE', 22), price('PLUG', 6), price('PLUG-6', 9), price('PLUG-PUMP', 5), price('VACUUM', 85), price('LINE-TEST', 30), price('WATER-TEST', 38),
  price('EXCAVATOR', 128), price('HAMMER', 310), price('COMPACTOR', 95), price('CRANE', 210), price('SHORING', 9500), price('GAS-METER', 60), price('HAUL-TANKS', 420), price('HAUL-STONE', 110), price('MOVE-IN', 380), price('PERMIT', 275),
]

/** Prices of the list that carry most of the money, after tanks, pump and an hour of labor, which have columns elsewhere; a new office asks for these first. */
export const twelvePrices: readonly string[] = ['EXCAVATOR', 'HAUL-TANKS', 'HAUL', 'RISER', 'RISER-LID', 'STONE-BED', 'STONE-DRAIN', 'DRAIN-PVC 40', 'ELECTRICIAN', 'DEWATER', 'FILTER', 'HAUL-STONE']
const ASK_FIRST = `Ask for this one first: one of the twelve that carry most of the money (labor is $${String(jobFields.LaborRate_usd_per_h.default)} an hour unless Jobs says)`
/** A list to be filled in: empty, the twelve on top. */
const emptyPrices = (rows: readonly Cells[]): readonly Cells[] => {
  const isFirst = ({ Code }: Cells) => twelvePrices.includes(String(Code))
  return [...twelvePrices.flatMap((code) => rows.filter(({ Code }) => Code === code)), ...rows.filter((row) => !isFirst(row))].map((row) => ({
    ...row,
    Price_usd: null,
    ...(isFirst(row) ? { PriceSource: ASK_FIRST } : {}),
  }))
}

const roofRows: readonly Cells[] = roofs.rows.map((row, at) => ({ Surface: row.surface!, Runoff: row.runoff!, Source: citationText(roofs.sourceOf(at)) }))

const suppliers: readonly (readonly [RegExp, string])[] = [
  [/^(?:TANK|HAUL-TANKS|RISER|LID|MASTIC|VENT|SIGN|TIE-BOOT|PLATE)/, 'Quern precast yard'],
  [/^(?:STONE|HAUL-STONE|IMPORT|FABRIC|OUTFALL)/, 'Stonecup quarry'],
  [/^(?:EXCAVATOR|HAMMER|COMPACTOR|CRANE|SHORING|TRENCH-BOX|DEWATER|FENCE|LADDER|GAS|PLUG|VACUUM)/, 'Fallow Cross hire'],
  [/^(?:CABLE|CONDUIT|CORD|SPLICE|DISCONNECT)/, 'Low Fallow electric'],
  [/^(?:TIE|PORT|DRAIN|PE-|ADAPTER|COUPLING|CLAMP|CTS|BUSHING|NIPPLE|PITLESS|DROP|CHECK|PUMP|FLOAT|CONTROL|SAFETY|PULL|CALM|FILTER|PRESSURE)/, 'Alder Reach pipe counter'],
]
const supplierOf = (code: string): string | null => suppliers.find(([codes]) => codes.test(code))?.[1] ?? null
function described(row: Cells): Cells {
  const startsLike = (known: Cells) => String(known.Code).includes('{') && String(row.Code).startsWith(String(known.Code).split('{')[0]!)
  const alike = defaultItems.filter(startsLike).sort((one, other) => String(other.Code).indexOf('{') - String(one.Code).indexOf('{'))
  const item = defaultItems.find((known) => known.Code === row.Code) ?? alike[0]
  return { ...row, Description: item ? String(item.Description).replace(/\{[^}]+\}/g, '…') : null, Unit: item?.Unit ?? null }
}

const asTable = (table: TableName, rows: readonly Cells[]): RawTable => ({
  sheet: table,
  columns: Object.keys(fieldsOf(table)),
  rows: rows.map((cells, at) => ({ row: FIRST_ROW + at, cells })),
})

/** What a new workbook holds: rules and roof surfaces to start from, prices to fill in. With `demo`, the whole scenario. */
export function startingOffice(demo: boolean): RawOffice {
  const rows: Record<TableName, readonly Cells[]> = {
    Jobs: demo ? jobs : [],
    Tanks: demo ? tanks : [],
    Pumps: demo ? pumps : [],
    Roofs: roofRows,
    Rain: demo ? rain : [],
    Items: defaultItems,
    Catchments: demo ? catchments : [],
    Uses: demo ? uses : [],
    PressureTanks: demo ? pressureTanks : [],
    Cables: demo ? cables : [],
    Cranes: demo ? cranes : [],
    Variants: demo ? variants : [],
    House: demo ? house : [],
    Headings: [],
    RainDays: [],
    Prices: demo ? prices.map(described).map((row) => ({ ...row, Supplier: supplierOf(String(row.Code)) })) : emptyPrices(prices.map(described)),
  }
  const office = Object.fromEntries(tableNames.map((table) => [table, asTable(table, rows[table])])) as unknown as RawOffice
  return demo ? { ...office, RainDays: demoDays() } : office
}

/** Daily rain for one station of the demo; the others are known by their mean months alone. */
function demoDays(): RawTable {
  const station = rain[0]!
  const days = demoRain(monthNames.map((month) => Number(station[`${month}_in`])))
  return {
    sheet: 'RainDays',
    columns: ['Date', String(station.Station)],
    rows: days.map(({ date, rain_in }, at) => ({ row: FIRST_ROW + at, cells: { Date: date, [String(station.Station)]: rain_in } })),
  }
}
