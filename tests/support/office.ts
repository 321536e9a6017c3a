/** The demo office, and copies of it with a few cells changed. */
import { startingOffice } from '../../src/takeoff/demo.js'
import { readOffice, rowNamed, type Office, type RawOffice } from '../../src/takeoff/office.js'
import type { TableName } from '../../src/takeoff/officeTables.js'
import { makeTakeoff, type Takeoff } from '../../src/takeoff/takeoff.js'

type Cells = Readonly<Record<string, unknown>>

/** The demo with rows replaced, added or changed: `change.Jobs` is a list of whole rows. */
export function officeWith(change: Partial<Record<TableName, readonly Cells[]>>): RawOffice {
  const demo = startingOffice(true)
  return Object.fromEntries(
    Object.entries(demo).map(([name, table]) => {
      const rows = change[name as TableName]
      return [name, rows ? { ...table, rows: rows.map((cells, at) => ({ row: 6 + at, cells })) } : table]
    }),
  ) as unknown as RawOffice
}

export const demoRows = (table: TableName): Cells[] => startingOffice(true)[table].rows.map(({ cells }) => cells)

export function takeoffOf(job: Cells, more: Partial<Record<TableName, readonly Cells[]>> = {}): Takeoff {
  const office = readOffice(officeWith({ ...more, Jobs: [job] }))
  return makeTakeoff(office, office.tables.Jobs[0]!)
}

export function demoTakeoff(name: string): Takeoff {
  const office: Office = readOffice(startingOffice(true))
  return makeTakeoff(office, rowNamed(office, 'Jobs', name)!)
}

export const lineOf = (takeoff: Takeoff, code: string) => takeoff.lines.find((line) => line.code === code)

/** The least that a row must say. */
export const leastRow = { Job: 'Least', RoofArea_ft2: 2000, RainStation: 'Alder Reach', People: 2, TankModel: 'Quern 1800', WaterLineRun_ft: 90, PowerRun_ft: 100 }

/** What the parts of a pit leave of its dig: nothing, where its mass is kept. */
export const pitLeft_yd3 = ({ design }: Pick<Takeoff, 'design'>): number =>
  (['Bed_yd3', 'TanksOutside_yd3', 'RisersInEarth_yd3', 'PumpEndStone_yd3', 'DrainsInPit_yd3', 'Backfill_yd3', 'PitTopsoilBack_yd3'] as const).reduce(
    (left, part) => left - design.number(part),
    design.number('Dig_yd3'),
  )
