import { cite } from '../../sources.js'
import { monthNames } from '../officeTables.js'
import { column, type RowList } from './rowList.js'

const spilling = cite('yield', 'yield after spillage, on half months')
const half = cite('derivation', 'half of the month')
const ofMonth = (name: string): string[] => monthNames.flatMap((_, at) => [`INDEX(${name},${at + 1})/2`, `INDEX(${name},${at + 1})/2`])
const columns = [
  column('HalfInflow_gal', 'Inflow', ofMonth('MonthInflow_gal'), half, { isSummed: true }),
  column('HalfDemand_gal', 'Demand', ofMonth('MonthDemand_gal'), half, { isSummed: true }),
  column(
    'HalfFirst_gal',
    'Stored, first year',
    'MIN(before_HalfFirst_gal+HalfInflow_gal-MIN(HalfDemand_gal,before_HalfFirst_gal),UsableStorage_gal-MIN(HalfDemand_gal,before_HalfFirst_gal))',
    spilling,
  ),
  column('HalfSupplied_gal', 'Supplied', 'MIN(HalfDemand_gal,before_HalfStored_gal)', spilling, { isSummed: true }),
  column('HalfStored_gal', 'Stored', 'MIN(before_HalfStored_gal+HalfInflow_gal-HalfSupplied_gal,UsableStorage_gal-HalfSupplied_gal)', spilling, { startsAt: 'HalfFirst_gal' }),
] as const

/**
 * The year once more in steps of half a month. On whole months, yield after spillage wants a tank for the rain of a month, which no roof
 * brings at once: tanks are counted on these where there are no days. With days one empty row stands there.
 */
export const halves = {
  title: ({ record }) =>
    record ? 'Half months: not worked, for there are days' : 'Half months: two like years from empty, yield after spillage; tanks are counted by these where there are no days',
  heading: '',
  restsOn: ['RainStation'],
  rows: ({ record }) =>
    record
      ? [{ name: '', cells: Object.fromEntries(columns.map(({ name }) => [name, ''])) }]
      : monthNames.flatMap((name) => [
          { name: `${name}, first half`, cells: {} },
          { name: `${name}, second half`, cells: {} },
        ]),
  columns,
} as const satisfies RowList
