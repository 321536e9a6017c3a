/** Every mistake is named with its sheet, row and column, what is allowed and what came; all mistakes of a row at once. */
import { describe, expect, it } from 'vitest'
import { startingOffice } from '../../src/takeoff/demo.js'
import { isUnpriced, problemText, ProblemsError } from '../../src/takeoff/fields.js'
import { jobSheets } from '../../src/plan/jobSheets.js'
import { standardPlaces } from '../../src/plan/places.js'
import { address } from '../../src/plan/plan.js'
import { takeoffColumns } from '../../src/plan/sheets/takeoffColumns.js'
import { made } from '../support/makings.js'
import { readOffice } from '../../src/takeoff/office.js'
import { makeTakeoff, workJob } from '../../src/takeoff/takeoff.js'
import { demoRows, leastRow, officeWith, takeoffOf } from '../support/office.js'

const messageOf = (make: () => unknown): string => {
  try {
    make()
  } catch (error) {
    if (error instanceof ProblemsError) return error.message
    throw error
  }
  throw new Error('Nothing was refused.')
}

describe('a job row', () => {
  it('one inlet tank where a roof drains into the next', () => {
    const next = { Catchments: [{ Job: 'Least', Area_ft2: 800, Surface: 'metal', Inlet: 'next' }] }
    const row = { ...leastRow, TankCount: 3 }
    expect(messageOf(() => takeoffOf({ ...row, InletTanks: 1 }, next))).toBe('Jobs, row 6, InletTanks: 2, or empty: a roof of Catchments drains into the next tank; got 1.')
    expect(takeoffOf({ ...row, InletTanks: 2 }, next).design.number('NextFlow_gpm')).toBeGreaterThan(0)
  })
  it.each([
    [{ TankModel: 'Nowhere' }, /^Jobs, row 6, TankModel: a name in the first column of Tanks: Quern 1200, Quern 1400, Quern 1800, Quern 2600; got "Nowhere"\.$/],
    [{ RainStation: 'Nowhere' }, /Jobs, row 6, RainStation: a name in the first column of Rain: .*got "Nowhere"/],
    [{ RoofSurface: 'thatch' }, /Jobs, row 6, RoofSurface: .*got "thatch"/],
    [{ PumpModel: 'Nowhere' }, /Jobs, row 6, PumpModel: .*got "Nowhere"/],
    [{ RoofArea_ft2: '' }, /Jobs, row 6, RoofArea_ft2: 1 to 1,000,000 ft²; got nothing/],
    [{ RoofArea_ft2: 'big' }, /Jobs, row 6, RoofArea_ft2: .*got "big"/],
    [{ RoofArea_ft2: -5 }, /Jobs, row 6, RoofArea_ft2: .*got -5/],
    [{ RoofArea_ft2: '20 m' }, /Jobs, row 6, RoofArea_ft2: .*got "20 m"/],
    [{ TankCount: 2.5 }, /Jobs, row 6, TankCount: a whole number, 1 to 12; got 2\.5/],
    [{ Date: 'soon' }, /Jobs, row 6, Date: a date, as 2026-05-31; got "soon"/],
    [{ Date: '2026-02-30' }, /Jobs, row 6, Date: .*got "2026-02-30"/],
    [{ Job: 'A name that is far too long for a sheet' }, /Jobs, row 6, Job: a text of 1 to 23 characters/],
    [{ Job: 'A/B' }, /Jobs, row 6, Job: no \[ \] : \* \? \/ or \\ in a sheet name; got "A\/B"/],
    [{ WaterLineSize: '9' }, /WaterLineSize: .*one of 1\/2, 3\/4, 1, .* for PE IPS 200; got "9"/],
    [{ Backflow: 'preventer', BackflowLoss_psi: 0 }, /^Jobs, row 6, BackflowLoss_psi: above 0 where there is a preventer; got 0\.$/],
    [{ CableSize: '13' }, /Jobs, row 6, CableSize: .*got 13|Jobs, row 6, CableSize: .*got "13"/],
    [{ SoilClass: 'D' }, /Jobs, row 6, SoilClass: one of rock, A, B, C; got "D"/],
    [{ DropLimit: 0.005, PowerRun_ft: 5000, PumpModel: 'Lark 150' }, /no copper conductor up to 4\/0 AWG is large enough/],
    [{ WaterLinePipe: 'PE IPS 160', WaterLineSize: '2' }, /Items, row \d+, Code: a row for PE-PE IPS 160-2 in Prices, with its price .*; got none/],
  ])('%o', (change, message) => {
    expect(messageOf(() => takeoffOf({ ...leastRow, ...change }))).toMatch(message)
  })

  it('takes text with units', () => {
    const { design } = takeoffOf({ ...leastRow, RoofArea_ft2: '186 m2', WaterLineRun_ft: '30 m', HousePressure_psi: '3 bar' })
    // 1 m is 1/0.3048 ft; 1 bar is 14.5038 psi (definitions).
    expect(design.number('WaterLineRun_ft')).toBeCloseTo(30 / 0.3048, 9)
    expect(design.number('RoofArea_ft2')).toBeCloseTo(186 / 0.3048 ** 2, 6)
    expect(design.number('HousePressure_psi')).toBeCloseTo(43.511, 3)
  })
  it('takes the older spelling of a choice, which held a comma', () => {
    const { design } = takeoffOf({ ...leastRow, DrainTable: 'Older IPC, UPC' })
    expect([design.single('DrainTable'), design.number('DrainRoughness')]).toEqual(['older IPC or UPC', 0.0155])
  })
  it.each([
    [{ RoofArea_ft2: 1_000_000 }, ['RoofArea_ft2']],
    [{ HouseFlow_gpm: 181.5, WaterLineRun_ft: 1900, WaterLineSize: '1' }, ['HouseFlow_gpm']],
    [{ CutIn_psi: 60, CutOut_psi: 50 }, ['CutOut_psi']],
  ])('%o: what cannot be worked out is told at the cell to mend, and no verdict shows a bare error', (change, columns) => {
    const office = readOffice(officeWith({ Jobs: [{ ...leastRow, ...change }] }))
    const { problems, design } = workJob(office, office.tables.Jobs[0]!)
    expect(new Set(problems.map(({ column }) => column))).toEqual(new Set(columns))
    expect(design!.verdicts().filter(({ words }) => words.includes('#'))).toEqual([])
  })
  it('gathers all problems of a row', () => {
    const message = messageOf(() => takeoffOf({ Job: 'Bad', RoofArea_ft2: -1, RainStation: 'X', People: 'many', TankModel: '', Voltage_V: 12 }))
    expect(message.split('\n')).toHaveLength(5)
  })
  it('a name twice is refused with the row that has it', () => {
    const office = readOffice(officeWith({ Jobs: [leastRow, { ...leastRow, Job: 'least' }] }))
    expect(messageOf(() => makeTakeoff(office, office.tables.Jobs[1]!))).toMatch(/Jobs, row 7, Job: each job once; row 6 has it already; got "least"/)
    // Which of the two is meant nobody can tell: the first is not made either.
    expect(messageOf(() => makeTakeoff(office, office.tables.Jobs[0]!))).toMatch(/Jobs, row 7, Job: each job once/)
  })
  it('text that begins like a formula stays text', () => {
    const { design } = takeoffOf({ ...leastRow, Site: '=1+1' })
    expect(design.single('Site')).toBe('=1+1')
  })
  it('a mistake in a tank or pump that the job does not use is no reason to refuse it', () => {
    const Tanks = demoRows('Tanks').map((row) => (row.Model === 'Quern 2600' ? { ...row, Weight_lb: 'heavy' } : row))
    expect(takeoffOf(leastRow, { Tanks }).lines.length).toBeGreaterThan(60)
    expect(messageOf(() => takeoffOf({ ...leastRow, TankModel: 'Quern 2600' }, { Tanks }))).toMatch(/Tanks, row 9, Weight_lb: .*got "heavy"/)
  })
})

describe('an item rule', () => {
  const withRule = (change: Record<string, unknown>) =>
    takeoffOf(leastRow, {
      Items: [...demoRows('Items'), { Code: 'LOCATE2', Section: 'Test', Description: 'New', Quantity: '1', Unit: 'each', Why: 'a reason', Price: '5', ...change }],
    })
  it('stone is what is bought by the ton, whatever its code: its loads are counted', () => {
    const loads = (takeoff: { lines: readonly { code: string; order: number }[] }) => takeoff.lines.find(({ code }) => code === 'HAUL-STONE')!.order
    const own = (change: Record<string, unknown>) => loads(withRule({ Kind: 'material', Quantity: '300', ...change }))
    const plain = loads(takeoffOf(leastRow))
    expect(own({ Code: 'STONE-WALL', Unit: 'ft²' })).toBe(plain)
    // So many full loads more; the last one before may have had room.
    expect(own({ Code: 'SAND', Unit: 'ton' }) - plain).toBeGreaterThanOrEqual(Math.floor(300 / takeoffOf(leastRow).design.number('StoneLoad_ton')))
    expect(own({ Code: 'SAND', Unit: 'ton', Kind: 'subcontract' })).toBe(plain)
    // What is figured on those tons is none of them: its formula does not go round in a circle.
    const fines = withRule({ Code: 'FINES', Kind: 'material', Quantity: '0.5*StoneOrdered', Unit: 'ton' })
    expect(loads(fines)).toBe(plain)
    const { cells } = jobSheets(fines, standardPlaces(), 'native', made).find(({ kind }) => kind === 'takeoff')!
    const row = cells.find(({ value, column }) => value === 'FINES' && column === takeoffColumns.code)!.row
    const summed = cells.find((cell) => cell.row === row && cell.column === takeoffColumns.net)!.formula!
    expect(summed).toMatch(/^0\.5\*\(/)
    expect(summed).not.toContain(address(row, takeoffColumns.order, false))
  })
  it('can be added without a programmer', () => {
    const takeoff = withRule({ Code: 'TWICE', Quantity: 'IF(TankCount>1,2*TieCount,TankCount)', Description: 'For {TankCount}' })
    expect(takeoff.lines.find((line) => line.code === 'TWICE')).toMatchObject({ price: 5 })
  })
  it.each([
    [{ Quantity: 'Tank_Count*2' }, /Items, row \d+, Quantity: .*no field or result is called Tank_Count/],
    [{ Quantity: 'Fence run' }, /Quantity: a spreadsheet formula; got "Fence run" \(a sign between two names: a name has no blank in it, as FenceRun_ft\)/],
    [{ Quantity: 'RoofArea*2' }, /no field or result is called RoofArea; did you mean RoofArea_ft2/],
    [{ Quantity: '1+' }, /Items, row \d+, Quantity: a spreadsheet formula; got "1\+" \(cannot be read as a formula\)/],
    [{ Quantity: 'ROUND(TankCount)' }, /Quantity: a spreadsheet formula; got .*ROUND takes 2 arguments; it has 1/],
    [{ Quantity: 'PI(2)' }, /PI takes 0 arguments; it has 1/],
    [{ Quantity: 'ABS()' }, /ABS takes 1 arguments; it has 0/],
    [{ Quantity: 'ABS(1,2)' }, /ABS takes 1 arguments; it has 2/],
    [{ Quantity: 'INDEX(1,2,3,4)' }, /INDEX takes 2 to 3 arguments; it has 4/],
    [{ Quantity: 'IF()' }, /IF takes 2 to 3 arguments; it has 0/],
    [{ Quantity: '1E+300' }, /Quantity: a formula that gives a number, 0 to 1,000,000,000 .*got 1e\+300/],
    [{ Price: '0-50' }, /Items, row \d+, Price: a formula that gives a price, \$0 to 1,000,000,000 .*got -50/],
    [{ Price: 'LaborHours*2' }, /Price: .*LaborHours stands in When and Quantity only/],
    [{ Description: 'For {LaborHours}' }, /Description: .*LaborHours stands in When and Quantity only/],
    [{ Description: 'Rain {MonthRain_in}' }, /Description: braces around single values .*got #VALUE!/],
    [{ Description: '#REF!' }, /Description: a text of 1 to \d+ characters; got "#REF!"/],
    [{ Quantity: 'LaborHours*TANKVOLUME(1,1,1)' }, /over LaborHours takes spreadsheet functions only/],
    [{ Quantity: 'STORAGENEEDED(MonthInflow_gal,MonthDemand_gal,0.5)' }, /the function STORAGENEEDED is not among/],
    [{ Quantity: 'WATERBALANCE.STORED(MonthInflow_gal,MonthDemand_gal,9)' }, /the function WATERBALANCE.STORED is not among/],
    [{ Code: 'LOC*' }, /Items, row \d+, Code: no \* \? or ~, which a spreadsheet takes for wildcards; got "LOC\*"/],
    [{ Quantity: 'WEBSERVICE("x")' }, /the function WEBSERVICE is not among/],
    [{ Quantity: 'HYPERLINK("x")' }, /the function HYPERLINK is not among/],
    [{ Quantity: '' }, /Items, row \d+, Quantity: .*got nothing/],
    [{ Quantity: '"text"' }, /Quantity: a formula that gives a number, 0 to 1,000,000,000/],
    [{ Quantity: '0-1' }, /Quantity: a formula that gives a number, 0 to 1,000,000,000.*got -1/],
    [{ Quantity: '1/0' }, /Quantity: .*got #DIV\/0!/],
    [{ When: 'Nothing' }, /Items, row \d+, When: .*no field or result is called Nothing/],
    [{ Why: '{Nothing}' }, /Items, row \d+, Why: .*no field or result is called Nothing/],
    [{ Section: 'Summary' }, /Items, row \d+, Section: a name that no sum of the takeoff has; got "Summary"/],
    [{ Section: 'x'.repeat(41) }, /Items, row \d+, Section: Earthwork, .*, or a name of your own: a text of 1 to 40 characters; got "xxx/],
    [{ Code: 'LOCATE' }, /Items, row \d+, Code: each code once; row 6 has it already/],
    [{ Price: '' }, /Items, row \d+, Code: a code with a row in Prices \(job Least\); got "LOCATE2"/],
    [{ Waste: -1 }, /Items, row \d+, Waste: 0 to 1; got -1/],
  ])('%o', (change, message) => {
    expect(messageOf(() => withRule(change))).toMatch(message)
  })
})

describe('an office without a price', () => {
  it('is asked for each of them on Prices, where a rule falls back on the list too', () => {
    const Prices = demoRows('Prices').map((row) => ({ ...row, Price_usd: null }))
    const office = readOffice(officeWith({ Jobs: [leastRow], Prices, PressureTanks: [], Cranes: [] }))
    const { problems } = workJob(office, office.tables.Jobs[0]!)
    expect(problems.filter((problem) => !isUnpriced(problem) || problem.sheet !== 'Prices').map(problemText)).toEqual([])
    expect(problems.map(({ unpriced }) => unpriced)).toEqual(expect.arrayContaining(['PRESSURE-TANK', 'CRANE', 'LOCATE']))
  })
})

describe('a name that two rows have', () => {
  it.each([
    ['Tanks', 'Model', 'Quern 1800', {}],
    ['Pumps', 'Model', 'Lark 75', { PumpModel: 'Lark 75' }],
    ['Rain', 'Station', 'Alder Reach', {}],
    ['Cables', 'Size', '14', {}],
  ] as const)('of %s is no name: which of them is meant nobody knows', (table, column, name, more) => {
    const rows = demoRows(table)
    const at = rows.findIndex((row) => String(row[column]) === name)
    const last = rows.length + 6
    const doubled = [...rows, { ...rows[at], [column]: rows[at]![column] }]
    expect(messageOf(() => takeoffOf({ ...leastRow, ...more }, { [table]: doubled }))).toMatch(
      new RegExp(`${table}, row ${last}, ${column}: each .* once; row ${at + 6} has it already; got "?${name}"?`),
    )
  })
})

describe('a pump', () => {
  it('whose curve is none is refused', () => {
    const Pumps = demoRows('Pumps').map((row) => ({ ...row, Flow3_gpm: 1, Head4_ftw: 500 }))
    expect(messageOf(() => takeoffOf(leastRow, { Pumps }))).toMatch(/Pumps, row 6, Flow3_gpm: flow ascending, above 4 gpm; got 1/)
    expect(messageOf(() => takeoffOf(leastRow, { Pumps }))).toMatch(/Pumps, row 6, Head4_ftw: head descending/)
  })
})

describe('what would leave a price in silence', () => {
  const without = (column: string) => {
    const raw = startingOffice(true)
    return readOffice({ ...raw, Items: { ...raw.Items, columns: raw.Items.columns.filter((name) => name !== column) } }).problems.map(problemText)
  }
  it.each(['When', 'Waste', 'Lot', 'LaborHours', 'Price'])('Items without its column %s is refused', (column) => {
    expect(without(column)).toContain(`Items, headings, ${column}: a column headed ${column}; got no such column.`)
  })
  it('a code of Prices is found whatever its capitals, as MATCH finds it', () => {
    const raw = startingOffice(true)
    const Prices = { ...raw.Prices, rows: raw.Prices.rows.map((row) => ({ ...row, cells: { ...row.cells, Code: row.cells.Code === 'FENCE' ? 'fence' : row.cells.Code } })) }
    const office = readOffice({ ...raw, Prices })
    expect(workJob(office, office.tables.Jobs[0]!).problems).toEqual([])
  })
  it('dates of a whole column in another form are named once, and counted', () => {
    const raw = startingOffice(true)
    const rows = raw.RainDays.rows.slice(0, 20).map((row, at) => ({ ...row, cells: { ...row.cells, Date: at < 5 ? `0${at + 1}/31/2011` : row.cells.Date } }))
    expect(readOffice({ ...raw, RainDays: { ...raw.RainDays, rows } }).problems.map(problemText)).toEqual([
      `RainDays, row ${rows[0]!.row}, Date: a date, as 2026-05-31; got "01/31/2011".`,
      'RainDays, headings, Date: dates, as 2026-05-31, in all rows; got 5 rows that have none.',
    ])
  })
})
