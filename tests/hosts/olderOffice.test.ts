/** A workbook that 0.1.0 made, with things typed on it: read, made again, brought up to date. */
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { beforeAll, describe, expect, it } from 'vitest'
import { openWorkbook, readSheet } from '../../src/hosts/file.js'
import { sourceOf } from '../../src/hosts/fileSession.js'
import { keptIn, makeJobs } from '../support/makings.js'
import { updateOffice } from '../../src/hosts/updateOffice.js'
import { startingOffice } from '../../src/takeoff/demo.js'
import { readOffice, rowNamed, type RawOffice } from '../../src/takeoff/office.js'
import { wantedTables } from '../../src/takeoff/officeTables.js'
import { items010 } from '../../src/takeoff/older/items010.js'
import { numberOfRow010, rows010 } from '../../src/takeoff/older/rows010.js'
import { officeUpdate } from '../../src/takeoff/older/update.js'
import { versions } from '../../src/takeoff/older/versions.js'
import { makeTakeoff, workJob } from '../../src/takeoff/takeoff.js'
import { lineOf } from '../support/office.js'
import { inExceljs, savedBy } from '../support/xlsx.js'

const made = { date: '2026-11-25', revision: 1, version: 'test' }
const bytes = new Uint8Array(readFileSync(join(import.meta.dirname, '../data/made-by-0.1.0.xlsx')))
const older = () => sourceOf(bytes, 'OLD.xlsx')

describe('rows of Items that 0.1.0 wrote', () => {
  it('are known by a short number each, and no row of today is', () => {
    expect([...rows010].sort()).toEqual([...new Set(items010.map((row) => numberOfRow010(row)))].sort())
    expect(rows010.size).toBeGreaterThan(80)
    expect(rows010.has(numberOfRow010({ Code: 'LOCATE', Quantity: '2', Unit: 'job' }))).toBe(false)
  })
})

describe('a workbook of 0.1.0', () => {
  const source = older()
  const office = readOffice(source.raw)
  const job = rowNamed(office, 'Jobs', 'Wicket Mill')!
  const kept = keptIn(source.workbook, 'Wicket Mill')
  it('keeps quantities, prices, lines, house figures and the crew’s entries', () => {
    expect(kept.problems).toEqual([])
    expect(kept.overrides).toMatchObject({ 'TIE-BOOT': { quantity: 6 }, RISER: { price: 70 } })
    expect(kept.added).toEqual([{ code: 'GATE', description: 'Farm gate', unit: 'each', quantity: 2, price: 45.5, why: 'asked for' }])
    expect(kept.figures).toEqual({ Truck_yd3: 16 })
    expect(kept.crew.cells).toEqual({ B3: { done: 'R. Voss, 2026-11-20' }, T1: { start_inHg: 4, end_inHg: 4, watched_min: 5 } })
  })
  it('is made again as it is: its own rules, defaults for the columns that it lacks', async () => {
    const takeoff = makeTakeoff(office, job, kept)
    // Its old rule of the dose stands in its Items until it is brought up to date: a pint a thousand gallons.
    expect(lineOf(takeoff, 'DOSE')!.net).toBeCloseTo(takeoff.design.number('Storage_gal') / 1000, 9)
    expect(takeoff.design.number('TankPorts')).toBe(3)
    const { bytes: next } = await makeJobs(older(), ['Wicket Mill'])
    const again = keptIn(openWorkbook(next, 'x'), 'Wicket Mill')
    expect(again.overrides['TIE-BOOT']!.quantity).toBe(6)
    expect(again.crew).toEqual(kept.crew)
    const formulas = readSheet(openWorkbook(next, 'x'), 'Design Wicket Mill')!.flatMap((row) => row.map(({ formula }) => formula ?? ''))
    expect(formulas.filter((text) => text.includes('LACKING'))).toEqual([])
    expect(formulas).toContain('IF(""="",3,"")')
  })
  it('says what changed since, safety first, and leaves what the office changed', () => {
    const { changes, columns, own } = officeUpdate(source.raw)
    expect(changes.slice(0, 6).every(({ touchesLife }) => touchesLife)).toBe(true)
    expect(changes.find(({ key }) => key === 'DOSE')).toMatchObject({ touchesLife: true, reason: expect.stringContaining('an eighth') })
    expect(own).toEqual(['SIGN of Items, row 20', 'VENT of Items, row 21'])
    expect(columns.map(({ table }) => table)).toEqual(['Jobs', 'Tanks', 'Pumps', 'Items', 'Prices'])
  })
})

/** What a new workbook of today has besides, for the newest as for the oldest: rows, and prices to be filled in. */
const newRows = ['NEUTRALIZER', 'PLACE', 'TANK-INSUL']
/** A yard of trench costs what six feet did, 18 in by 36 in: 1.5 x 3 ft / 27. */
const trenches = ['TRENCH-DRAIN', 'TRENCH-LINE']
/** What the update asks to be filled in. */
const priced = (office: RawOffice): RawOffice => ({
  ...office,
  Prices: { ...office.Prices, rows: office.Prices.rows.map((row) => ({ ...row, cells: { ...row.cells, Price_usd: row.cells.Price_usd ?? 10 } })) },
})
/** Ports of 6 in have prices since 0.19.0. */
const ports = ['FLAP-6', 'PORT-BEND-6', 'PORT-CLAMP-6', 'PORT-STUB-6']
/** Cables of three conductors came with 0.9.0. */
const cables = [10, 12, 14, 6, 8].map((size) => `CABLE-copper-${size}-3`)
/** Openings of another size have lines of their own since 0.10.0. */
const sizes = ['LID-INSUL', 'PLATE', 'RISER', 'RISER-LID'].map((code) => `${code}-{SecondOpening_in}`)
/** Rows of Items that are other ones now than in a version, by the lists of what it and those after it had last. */
const changedFrom = (version: string): string[] => [...new Set(versions.filter(({ last }) => isAtLeast(last, version)).flatMap(({ items }) => Object.keys(items)))]
/** Whether one version came out with or after another. */
function isAtLeast(version: string, least: string): boolean {
  const [one, other] = [version, least].map((text) => text.split('.').map(Number)) as [number[], number[]]
  const at = one.findIndex((number, index) => number !== other[index])
  return at < 0 || one[at]! > other[at]!
}
const changedIn = (...lasts: readonly string[]): string[] => versions.filter(({ last }) => lasts.includes(last)).flatMap(({ items }) => Object.keys(items))
/** Rows that changed after 0.9.0, but for the three of digging, which were there one by one before it. */
const later = changedFrom('0.10.0').filter((key) => !key.includes('{RockSuffix}'))
/** Rock has prices of its own since 0.10.0. */
const rock = ['DIG-ROCK', 'HAMMER', 'TRENCH-DRAIN-ROCK', 'TRENCH-LINE-ROCK']

it.each(['0.21.0', '0.20.0', '0.19.0', '0.18.0', '0.17.0', '0.16.0', '0.15.0', '0.14.0', '0.13.0', '0.12.0', '0.11.0', '0.10.0', '0.9.0'])(
  'no step of the crew of %s is taken for written over',
  (version) => {
    const { workbook } = sourceOf(new Uint8Array(readFileSync(join(import.meta.dirname, `../data/made-by-${version}.xlsx`))), 'OLD.xlsx')
    expect(keptIn(workbook, 'Wicket Mill').crew.added).toEqual([])
  },
)

describe.each(['0.21.0', '0.20.0', '0.19.0', '0.18.0', '0.17.0', '0.16.0', '0.15.0', '0.14.0', '0.13.0', '0.12.0', '0.11.0'])('a workbook of %s', (version) => {
  const own = () => sourceOf(new Uint8Array(readFileSync(join(import.meta.dirname, `../data/made-by-${version}.xlsx`))), 'OLD.xlsx')
  it('is brought up to date and made again, nothing of its own taken for somebody’s, before the update and after it', async () => {
    const { changes, columns, own: left } = officeUpdate(own().raw)
    expect(changes.map(({ table, key }) => `${table} ${key}`).sort()).toEqual(
      [
        ...[...changedFrom(version), ...newRows].map((key) => `Items ${key}`),
        ...[...newRows, ...trenches, 'TRENCH-DRAIN-ROCK', 'TRENCH-LINE-ROCK', ...(isAtLeast(version, '0.19.0') ? [] : ports)].map((key) => `Prices ${key}`),
      ].sort(),
    )
    expect([columns, left]).toEqual([isAtLeast(version, '0.14.0') ? [{ table: 'Jobs', names: ['FormerName'] }] : since013, []])
    const [before, now] = [own().raw, sourceOf(updateOffice(own(), made).bytes, 'OLD.xlsx').raw].map(
      (raw) => raw.Prices.rows.find(({ cells }) => cells.Code === 'TRENCH-LINE')!.cells,
    )
    expect(now).toMatchObject({ Unit: 'yd³', Price_usd: Math.round(600 * Number(before!.Price_usd)) / 100 })
    const after = sourceOf(updateOffice(own(), made).bytes, 'OLD.xlsx')
    expect(officeUpdate(after.raw).changes).toEqual([])
    for (const source of [own(), { ...after, raw: priced(after.raw) }]) {
      const office = readOffice(source.raw)
      const takeoff = makeTakeoff(office, rowNamed(office, 'Jobs', 'Wicket Mill')!, keptIn(source.workbook, 'Wicket Mill'))
      const { notes } = await makeJobs(source, ['Wicket Mill'])
      expect(notes.filter((note) => /written|gone|typed/.test(note))).toEqual([])
      expect(takeoff.unused).toEqual([])
    }
  })
})

it('a price of a trench whose unit nobody wrote is repriced too, and the last making knows feet from yards', async () => {
  const workbook = await inExceljs(new Uint8Array(readFileSync(join(import.meta.dirname, '../data/made-by-0.21.0.xlsx'))))
  const prices = workbook.getWorksheet('Prices')!
  const row = (prices.getColumn(2).values as unknown[]).indexOf('TRENCH-LINE')
  const heading = prices.getRow(5).values as unknown[]
  prices.getCell(row, heading.indexOf('Unit')).value = null
  const source = () => savedBy(workbook).then((bytes) => sourceOf(bytes, 'OLD.xlsx'))
  const after = sourceOf(updateOffice(await source(), made).bytes, 'OLD.xlsx')
  expect(after.raw.Prices.rows.find(({ cells }) => cells.Code === 'TRENCH-LINE')!.cells).toMatchObject({ Unit: 'yd³', Price_usd: 12.6 })
  const { earlier } = await makeJobs({ ...after, raw: priced(after.raw) }, ['Wicket Mill'])
  expect(earlier!.before!.lines.get('TRENCH-LINE')!.unit).toBe('ft')
})

/** Columns that came after 0.13.0. */
const since013 = [
  { table: 'Jobs', names: ['FilterFall_in', 'FormerName'] },
  { table: 'Tanks', names: ['WaterOutside_ft'] },
  { table: 'Pumps', names: ['Current_A'] },
]

it('who signed the changes of a workbook of 0.6.1 stays with them', async () => {
  const workbook = await inExceljs(new Uint8Array(readFileSync(join(import.meta.dirname, '../data/made-by-0.6.1.xlsx'))))
  const changes = workbook.getWorksheet('Changes Wicket Mill')!
  for (const [row, name] of [
    [12, 'R. Voss, 2 Nov'],
    [13, 'I. Marrow, 3 Nov'],
  ] as const)
    changes.getCell(row, 6).value = name
  const made_ = await makeJobs(sourceOf(new Uint8Array(await workbook.xlsx.writeBuffer()), 'OLD.xlsx'), ['Wicket Mill'])
  const words = (bytes: Uint8Array) => readSheet(openWorkbook(bytes, 'x'), 'Changes Wicket Mill')!.flatMap((row) => row.map(({ value }) => String(value ?? '')))
  expect(words(made_.bytes)).toEqual(expect.arrayContaining([expect.stringContaining('R. Voss, 2 Nov'), expect.stringContaining('I. Marrow, 3 Nov')]))
  const again = await makeJobs(sourceOf(made_.bytes, 'OLD.xlsx'), ['Wicket Mill'])
  // Behind what is printed it is kept once more.
  expect(words(again.bytes).filter((text) => text.endsWith('R. Voss, 2 Nov'))).toHaveLength(1)
})

it('a table that the workbook lacks is added, and told', async () => {
  const workbook = await inExceljs(new Uint8Array(readFileSync(join(import.meta.dirname, '../data/made-by-0.12.0.xlsx'))))
  workbook.removeWorksheet('Variants')
  const source = sourceOf(new Uint8Array(await workbook.xlsx.writeBuffer()), 'OLD.xlsx')
  const { bytes, tables } = updateOffice(source, made)
  expect(tables).toEqual(['Variants'])
  expect(sourceOf(bytes, 'OLD.xlsx').absent).toEqual([])
})

describe('a workbook of 0.10.0', () => {
  const own = () => sourceOf(new Uint8Array(readFileSync(join(import.meta.dirname, '../data/made-by-0.10.0.xlsx'))), 'OLD.xlsx')
  it('is brought up to date and made again, in rock too, nothing of its own taken for somebody’s, before the update and after it', async () => {
    const { changes, columns, own: left } = officeUpdate(own().raw)
    expect(changes.map(({ table, key }) => `${table} ${key}`).sort()).toEqual(
      [...new Set([...changedFrom('0.10.0'), ...rock.filter((code) => code !== 'HAMMER')])]
        .filter((code) => !['DIG', ...trenches].includes(code))
        .concat(newRows)
        .map((code) => `Items ${code}`)
        .concat([...ports, ...newRows, ...trenches, 'TRENCH-LINE-ROCK', 'TRENCH-DRAIN-ROCK'].map((code) => `Prices ${code}`))
        .sort(),
    )
    expect([columns, left]).toEqual([since013, []])
    const after = sourceOf(updateOffice(own(), made).bytes, 'OLD.xlsx')
    expect(officeUpdate(after.raw).changes).toEqual([])
    for (const source of [own(), { ...after, raw: priced(after.raw) }]) {
      const office = readOffice(source.raw)
      const job = rowNamed(office, 'Jobs', 'Wicket Mill')!
      const takeoff = makeTakeoff(office, job, keptIn(source.workbook, 'Wicket Mill'))
      await expect(makeJobs(source, ['Wicket Mill'])).resolves.toBeDefined()
      expect(takeoff.unused).toEqual([])
      const { cells } = job
      const inRock = makeTakeoff(office, { ...job, cells: { ...cells, SoilClass: 'rock' } })
      expect(lineOf(inRock, 'DIG-ROCK')).toBeDefined()
    }
  })
})

describe('a workbook of 0.9.0', () => {
  const own = () => sourceOf(new Uint8Array(readFileSync(join(import.meta.dirname, '../data/made-by-0.9.0.xlsx'))), 'OLD.xlsx')
  it('is brought up to date and made again, nothing of its own taken for somebody’s, before the update and after it', async () => {
    const { changes, columns, own: left } = officeUpdate(own().raw)
    expect(
      changes
        .filter(({ table }) => table === 'Items')
        .map(({ key }) => key)
        .sort(),
    ).toEqual([...new Set([...changedIn('0.9.0').filter((key) => key !== 'CABLE-{CableMetal}-{Cable}'), ...sizes, ...rock, ...later, ...newRows])].sort())
    expect(
      changes
        .filter(({ table }) => table === 'Prices')
        .map(({ key }) => key)
        .sort(),
    ).toEqual([...ports, ...rock, ...newRows, ...trenches].sort())
    expect([columns, left]).toEqual([since013, []])
    const after = sourceOf(updateOffice(own(), made).bytes, 'OLD.xlsx')
    expect(officeUpdate(after.raw).changes).toEqual([])
    for (const source of [own(), { ...after, raw: priced(after.raw) }]) {
      await expect(makeJobs(source, ['Wicket Mill'])).resolves.toBeDefined()
    }
  })
})

describe('a workbook of 0.8.0', () => {
  const own = () => sourceOf(new Uint8Array(readFileSync(join(import.meta.dirname, '../data/made-by-0.8.0.xlsx'))), 'OLD.xlsx')
  const { raw } = own()
  it('is brought up to date and made again, none of its own words taken for somebody’s', async () => {
    const { changes, columns, own: left } = officeUpdate(raw)
    const keys = (table: string) =>
      changes
        .filter((change) => change.table === table)
        .map(({ key }) => key)
        .sort()
    expect(keys('Items')).toEqual(
      [...new Set([...changedIn('0.9.0', '0.8.0'), ...later, ...rock, ...sizes, ...newRows, 'STONE-TIE'])].filter((key) => key !== 'CABLE-{CableMetal}-{Cable}{CoreSuffix}').sort(),
    )
    expect(keys('Prices')).toEqual([...cables, ...ports, ...rock, ...newRows, ...trenches, 'STONE-TIE'].sort())
    expect(columns).toEqual([{ table: 'Jobs', names: ['FootingAway_ft', 'FilterFall_in', 'FormerName'] }, ...since013.slice(1)])
    expect(left).toEqual([])
    const after = sourceOf(updateOffice(own(), made).bytes, 'OLD.xlsx')
    expect(officeUpdate(after.raw).changes).toEqual([])
    // Before the update and after it.
    for (const source of [own(), { ...after, raw: priced(after.raw) }]) {
      await expect(makeJobs(source, ['Wicket Mill'])).resolves.toBeDefined()
    }
  })
})

describe('a workbook of 0.6.1', () => {
  const own = () => sourceOf(new Uint8Array(readFileSync(join(import.meta.dirname, '../data/made-by-0.6.1.xlsx'))), 'OLD.xlsx')
  const source = own()
  const office = readOffice(source.raw)
  const job = rowNamed(office, 'Jobs', 'Wicket Mill')!
  const kept = keptIn(source.workbook, 'Wicket Mill')
  it('keeps what was typed, and is made again as it is, figures that are worked out now with it', async () => {
    expect(kept.problems).toEqual([])
    expect(kept.overrides).toMatchObject({ FENCE: { quantity: 300 }, RISER: { price: 70 } })
    expect(kept.added).toMatchObject([{ code: 'GATE', quantity: 2, price: 45.5 }])
    expect(kept.figures).toEqual({ RiserProud_in: 4, Truck_yd3: 16 })
    expect(kept.crew.cells).toMatchObject({ B3: { done: 'R. Voss, 2026-11-20' }, T1: { start_inHg: 4 }, 'Q 5': { done: 'N. Oduya' } })
    const takeoff = makeTakeoff(office, job, kept)
    expect(takeoff.design.number('RimProud_in')).toBe(4)
    // Its Items have no relief valve until they are brought up to date.
    expect(lineOf(takeoff, 'RELIEF')).toBeUndefined()
    const { bytes: next, notes } = await makeJobs(own(), ['Wicket Mill'])
    expect(notes).toEqual([])
    // From now on it is known whose the lines were.
    const overrides = Object.fromEntries(Object.entries(kept.overrides).map(([code, override]) => [code, { ...override, wasOurs: true }]))
    expect(keptIn(openWorkbook(next, 'x'), 'Wicket Mill')).toEqual({ ...kept, overrides })
    const formulas = readSheet(openWorkbook(next, 'x'), 'Design Wicket Mill')!.flatMap((row) => row.map(({ formula }) => formula ?? ''))
    expect(formulas.filter((text) => text.includes('LACKING') || text.includes('#REF'))).toEqual([])
  })
  it('is brought up to date: the relief valve first, and what changed since', async () => {
    const { changes, columns, own: left } = officeUpdate(source.raw)
    expect(
      changes
        .filter(({ touchesLife }) => touchesLife)
        .map(({ key }) => key)
        .sort(),
    ).toEqual(['DEWATER', 'GAS-METER', 'LADDER', 'PLUG{PortSuffix}', 'RELIEF', 'SIGN', 'TRENCH-BOX'])
    expect(
      changes
        .filter(({ table }) => table === 'Items')
        .map(({ key }) => key)
        .sort(),
    ).toEqual(
      [
        ...new Set([
          ...changedIn('0.9.0', '0.8.0', '0.7.0', '0.6.1').filter((key) => key !== 'CABLE-{CableMetal}-{Cable}{CoreSuffix}'),
          // Its row of plugs has the suffix of the port in its code.
          ...[
            ...later.filter((key) => key !== 'PLUG'),
            ...rock,
            ...sizes,
            ...newRows,
            'DRAIN-ADAPTER{DrainSuffix}',
            'LID-INSUL',
            'PLUG-{TankPort_in}',
            'PORT-REDUCER{PortSuffix}',
            'RELIEF',
            'STONE-TIE',
          ],
        ]),
      ].sort(),
    )
    // A set of cement makes 40 joints: 0.55 a joint is 22.00 a set.
    expect(changes.find(({ key, table }) => table === 'Prices' && key === 'PVC-CEMENT')?.cells).toMatchObject({ Unit: 'set', Price_usd: 22 })
    expect(
      changes
        .filter(({ table, row }) => table === 'Prices' && row === undefined)
        .map(({ key }) => key)
        .sort(),
    ).toEqual(
      [
        ...cables,
        ...ports,
        ...rock,
        ...newRows,
        ...['DRAIN-ADAPTER', 'DRAIN-ADAPTER-6', 'DRAIN-ADAPTER-8', 'LID-INSUL', 'PLUG-6', 'PORT-REDUCER', 'PORT-REDUCER-3', 'PORT-REDUCER-6', 'RELIEF', 'STONE-TIE'],
      ].sort(),
    )
    expect(Object.fromEntries(columns.map(({ table, names }) => [table, names]))).toEqual({
      Jobs: ['DownspoutRise_ft', 'FootingAway_ft', 'FilterFall_in', 'SupplyPhases', 'FormerName'],
      Tanks: ['WaterOutside_ft'],
      Pumps: ['Wires', 'Current_A'],
      PressureTanks: ['Rating_psi'],
    })
    expect(left).toEqual([])
    const after = sourceOf(updateOffice(own(), made).bytes, 'OLD.xlsx')
    expect(officeUpdate(after.raw).changes).toEqual([])
    // Words that its takeoff has from the older rows are nobody's: it is made again, with nothing refused.
    const workbook = await inExceljs(updateOffice(own(), made).bytes)
    const prices = workbook.getWorksheet('Prices')!
    const heading = prices.getRow(5).values as unknown[]
    const [code, price] = [heading.indexOf('Code'), heading.indexOf('Price_usd')]
    prices.eachRow((row, at) => {
      if (at > 5 && row.getCell(code).value && row.getCell(price).value === null) row.getCell(price).value = 10
    })
    const filled = sourceOf(await savedBy(workbook), 'OLD.xlsx')
    await expect(makeJobs(filled, ['Wicket Mill'])).resolves.toBeDefined()
  })
})

describe('an office of 0.3', () => {
  it('gets the pieces of its pipes where the row is ours but for them, and keeps a row of its own', () => {
    const now = startingOffice(true)
    const without = (change: Record<string, unknown> = {}) => ({
      ...now,
      Items: {
        ...now.Items,
        rows: now.Items.rows.map(({ row, cells }) => ({ row, cells: { ...cells, Pieces: null, Stock: null, ...(cells.Code === 'TIE-PIPE' ? change : {}) } })),
      },
    })
    const keys = (raw: ReturnType<typeof without>) =>
      officeUpdate(raw)
        .changes.filter(({ reason }) => reason.startsWith('pieces'))
        .map(({ key }) => key)
    expect(keys(without())).toEqual(['TIE-PIPE', 'PORT-STUB{PortSuffix}'])
    expect(keys(without({ Waste: 0.2 }))).toEqual(['PORT-STUB{PortSuffix}'])
  })
})

describe('brought up to date', () => {
  let updated: Uint8Array
  beforeAll(() => {
    updated = updateOffice(older(), made).bytes
  })
  it('untouched rules are new, the office’s own stay, new columns and tables are there, nothing else moved', async () => {
    const source = sourceOf(updated, 'OLD.xlsx')
    expect(source.absent).toEqual([])
    const items = new Map(source.raw.Items.rows.map(({ cells }) => [cells.Code, cells]))
    expect(items.get('DOSE')).toMatchObject({ Quantity: 'Bleach_gal*8', Unit: 'pint' })
    expect(items.get('DIG')).toMatchObject({ PaidBy: 'earthwork', Kind: 'subcontract' })
    expect(items.get('SIGN')).toMatchObject({ Quantity: '3' })
    expect(items.get('VENT')).toMatchObject({ Description: 'Screened vent, brass' })
    expect(items.get('LINE-TEST')).toBeDefined()
    expect(source.raw.Jobs.rows.map(({ cells }) => cells.Job)).toEqual(older().raw.Jobs.rows.map(({ cells }) => cells.Job))
    expect(source.raw.Jobs.columns).toContain('OutfallDrop_ft')
    const workbook = await inExceljs(updated)
    // The real tables reach over their new columns and rows.
    const table = (name: string) => (workbook.getWorksheet(name) as unknown as { tables: Record<string, { table: { tableRef: string; columns: unknown[] } }> }).tables[name]!.table
    expect(table('Items').columns.length).toBe(source.raw.Items.columns.length)
    expect(Number(/\d+$/.exec(table('Items').tableRef)![0])).toBeGreaterThanOrEqual(6 + source.raw.Items.rows.length - 1)
    expect(wantedTables.every((name) => workbook.getWorksheet(name))).toBe(true)
  })
  it('asks for the prices of new items at their cells, and makes the job once they are there', () => {
    const source = sourceOf(updated, 'OLD.xlsx')
    const office = readOffice(source.raw)
    const { problems, takeoff } = workJob(office, rowNamed(office, 'Jobs', 'Wicket Mill')!)
    expect(problems.map(({ sheet, column }) => `${sheet} ${column}`)).toEqual(problems.map(() => 'Prices Price_usd'))
    expect(problems.length).toBeGreaterThan(0)
    // 50 mg/L from 5.25 % bleach, about 8 pints a thousand gallons (Alberta Health Services).
    const dose = lineOf(takeoff!, 'DOSE')!
    expect(dose.net / (takeoff!.design.number('Storage_gal') / 1000)).toBeCloseTo((50 / 52_500) * 8 * 1000, 6)
  })
  it('one by one: only what is asked for', () => {
    const { update, bytes: one } = updateOffice(older(), made, ['DOSE'])
    expect(update.changes.map(({ key }) => key)).toEqual(['DOSE'])
    const items = new Map(sourceOf(one, 'x').raw.Items.rows.map(({ cells }) => [cells.Code, cells]))
    expect([items.get('DOSE')!.Quantity, items.get('DIG')!.PaidBy]).toEqual(['Bleach_gal*8', null])
  })
  it('twice is once', () => {
    const { update } = updateOffice(sourceOf(updated, 'OLD.xlsx'), made)
    expect(update.changes).toEqual([])
    expect(update.columns).toEqual([])
  })
})
