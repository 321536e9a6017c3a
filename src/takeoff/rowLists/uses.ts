import { monthNames } from '../officeTables.js'
import { office } from '../results/rule.js'
import { column, type RowList } from './rowList.js'

/** What a job uses by month, beside the use of its row; a row a use. */
export const uses = {
  title: () => 'Use that changes by month: copied from the sheet Uses',
  heading: 'Use',
  restsOn: [],
  rows: ({ uses: all }) =>
    all.length
      ? all.map(({ use, months }) => ({ name: use || 'use', cells: Object.fromEntries(monthNames.map((month, at) => [`Use${month}_gal_per_day`, months[at]!])) }))
      : [{ name: 'none', cells: {} }],
  columns: monthNames.map((month) => column(`Use${month}_gal_per_day`, month, '', office, { decimals: 0 })),
} as const satisfies RowList
