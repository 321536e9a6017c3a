/** A trial takes over what does not rest on the inputs that changed: the same figures as when all is worked out anew. */
import { describe, expect, it } from 'vitest'
import { isError } from '../../src/formula/value.js'
import { Design } from '../../src/takeoff/design.js'
import type { CellValue } from '../../src/takeoff/fields.js'
import { knownNames } from '../../src/takeoff/names.js'
import { readOffice, type Row } from '../../src/takeoff/office.js'
import { jobFields, type JobFieldName } from '../../src/takeoff/officeTables.js'
import { designJob } from '../../src/takeoff/sizing.js'
import { startingOffice } from '../../src/takeoff/demo.js'

const office = readOffice(startingOffice(true))
const shown = (value: unknown): unknown => (isError(value as never) ? String((value as { message: string }).message) : value)
const all = (design: Design): Record<string, unknown> => Object.fromEntries([...knownNames].map((name) => [name, shown(design.value(name))]))
/** Another value of the same kind: no matter whether it is a sensible one. */
const another = (value: CellValue | undefined, others: readonly CellValue[]): CellValue =>
  typeof value === 'number' ? value * 1.25 + 1 : (others.find((other) => other !== value && other !== null && other !== undefined) ?? (value === 'yes' ? 'no' : 'yes'))

describe('a trial that changes one input', () => {
  // A first flush, so that it matters how often it is lost.
  for (const job of office.tables.Jobs.map((row): Row => ({ ...row, cells: { ...row.cells, FirstFlush_in: 0.05 } })))
    it(`has every figure as if ${job.cells.Job} were worked out from the start`, () => {
      const base = designJob(office, job)
      all(base)
      const sized = Object.fromEntries(base.sized)
      for (const field of [...Object.keys(jobFields).filter((name) => name !== 'Job'), 'OverflowCount', 'TieShare', 'BlockedAtInlet', 'BlockedShare']) {
        const known = jobFields[field as JobFieldName] as { spec?: { options?: readonly string[] } } | undefined
        const value = another(base.sized.get(field) ?? job.cells[field], [...(known?.spec?.options ?? []), ...office.tables.Jobs.map(({ cells }) => cells[field] ?? null)])
        const row = { ...job, cells: { ...job.cells, [field]: value }, defaulted: new Set([...job.defaulted].filter((name) => name !== field)) }
        const { [field]: _, ...rest } = sized
        const found = field in jobFields ? {} : { [field]: value }
        const moved = all(new Design(office, row, rest, {}, found, base))
        expect(moved, field).toEqual(all(new Design(office, row, rest, {}, found)))
      }
    })
})
