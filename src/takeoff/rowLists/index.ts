/** The lists whose columns rules may use by name. */
import { curve } from './curve.js'
import { halves } from './halves.js'
import { months } from './months.js'
import { record } from './record.js'
import { roofs } from './roofs.js'
import type { RowList } from './rowList.js'
import { uses } from './uses.js'

const lists = [months, roofs, uses, record, halves, curve] as const
export const rowLists: readonly RowList[] = lists
export type ColumnName = (typeof lists)[number]['columns'][number]['name']
