/** One named result of a job: a spreadsheet formula over fields, table columns, cell functions and other results. */
import { cite, type Citation } from '../../sources.js'
import { fieldsOf, type TableName } from '../officeTables.js'

export interface ResultRule<N extends string = string> {
  name: N
  label: string
  formula: string
  source: Citation
}
export const result = <const N extends string>(name: N, label: string, formula: string, source: Citation): ResultRule<N> => ({ name, label, formula, source })

export const office = cite('office')
export const sum = cite('derivation', 'from the lines above')
export const geometry = cite('derivation', 'geometry of the layout')
export const practice = (locator: string) => cite('practice', locator)

/** Resistance of a fitting of the published table. */
export const fitting = (name: string): string => `INDEX(Fittings[resistance],MATCH("${name}",Fittings[fitting],0))`

const written = (value: unknown): string => (typeof value === 'number' ? String(value) : `"${String(value)}"`)

/** The cell of a table in the row that a field names. An empty cell means the default of its column, there as here. */
export function ofRow(table: TableName, key: string, wanted: string, column: string): string {
  const cell = `INDEX(${table}[${column}],MATCH(${wanted},${table}[${key}],0))`
  const fallback = fieldsOf(table)[column]!.default
  return fallback === undefined || fallback === null || fallback === 0 ? cell : `IF(${cell}="",${written(fallback)},${cell})`
}
/** Whether that cell is empty, and its default nobody's word. */
export const isEmptyIn = (table: TableName, key: string, wanted: string, column: string): string => `INDEX(${table}[${column}],MATCH(${wanted},${table}[${key}],0))=""`
export const ofTank = (column: string) => ofRow('Tanks', 'Model', 'TankModel', column)
export const ofPump = (column: string) => ofRow('Pumps', 'Model', 'PumpModel', column)
