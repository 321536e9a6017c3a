/** What changed since an older version, held against an office's own rows: a rule of ours that nobody touched is offered anew, safety first. */
import { roofs } from '../../tables/roofs.js'
import { citationText } from '../../sources.js'
import { defaultItems } from '../defaultItems.js'
import { startingOffice } from '../demo.js'
import type { CellValue } from '../fields.js'
import type { RawOffice, RawRow } from '../office.js'
import { fieldsOf, type TableName } from '../officeTables.js'
import { items010 } from './items010.js'
import type { ChangedItem } from './items040.js'
import { repriced070 } from './items070.js'
import { repriced210 } from './items210.js'
import { versions } from './versions.js'
import { wrongUnits010 } from './prices010.js'

export interface OfficeChange {
  table: TableName
  /** The key of the row. */
  key: string
  /** The row as it stands; nothing where the row is new. */
  row: number | undefined
  cells: Readonly<Record<string, CellValue>>
  reason: string
  touchesLife: boolean
}
export interface OfficeUpdate {
  changes: readonly OfficeChange[]
  /** Columns that a table lacks; they are added at its end, empty. */
  columns: readonly { table: TableName; names: readonly string[] }[]
  /** Rows that the office changed itself: they stay as they are. */
  own: readonly string[]
}

/** Why a rule changed, where it is more than words. */
const reasons: Readonly<Record<string, readonly [reason: string, touchesLife?: true]>> = {
  DOSE: ['the dose was an eighth of what health authorities publish for first disinfection', true],
  DEWATER: ['days of pumping follow from the work, and unknown groundwater counts as wet', true],
  'WATER-TEST': ['ballast and first fill on every job, not only where groundwater is high', true],
  CRANE: ['priced by the crane that lifts the tank at its radius', true],
  FLAP: ['one on each overflow in use', true],
  BACKFLOW: ['only where the job asks for it; air gap and preventer apart', true],
  DIG: ['earth was paid three times: unit price, hours and machines'],
  STRIP: ['earth was paid three times'],
  'TRENCH-LINE': ['earth was paid three times'],
  'TRENCH-DRAIN': ['drains of one run lie in one trench; earth was paid three times'],
  BACKFILL: ['earth was paid three times; the clean earth over the stone was paid twice'],
  'TRENCH-FILL': ['earth was paid three times'],
  EXCAVATOR: ['only where the own crew digs'],
  COMPACTOR: ['only where the own crew digs, trenches too'],
  FABRIC: ['reaches the sloped walls'],
  'HAUL-STONE': ['follows the stone ordered, waste with it'],
  WASHER: ['a diverter without a volume is not ordered'],
  'HOUSE-VALVE': ['only where the job asks for it'],
  'PRESSURE-TANK': ['sized for the least run and ordered by name'],
  RELIEF: ['a relief valve at each pressure tank', true],
  SEED: ['over the trenches too'],
}
const ITEM_COLUMNS = ['Code', 'Section', 'Description', 'When', 'Quantity', 'Unit', 'Waste', 'Lot', 'LaborHours', 'Price', 'Why'] as const
/** Columns that 0.4.0 brought, for rows that are ours but for them. */
const CUT_COLUMNS = ['Pieces', 'Stock']
const textOf = (value: unknown): string => (value === null || value === undefined ? '' : String(value).trim())
const isSame = (one: Readonly<Record<string, unknown>>, other: Readonly<Record<string, unknown>>, columns: readonly string[]) =>
  columns.every((column) => textOf(one[column]) === textOf(other[column]))
/** The row as each version had it, from ours back: the first that stands here says why it is another one now. */
function changedSince(cells: Readonly<Record<string, unknown>>, next: Readonly<Record<string, unknown>>): ChangedItem | undefined {
  // A row that had something in braces behind its code is one of those without.
  const steps = versions.map(({ items }) => items[textOf(cells.Code)] ?? items[stem(cells.Code)])
  let was = next
  const passed: ChangedItem[] = []
  for (const step of steps) {
    if (!step) continue
    was = { ...was, ...step.was }
    passed.unshift(step)
    if (isSame(cells, was, Object.keys(fieldsOf('Items')))) return { ...passed[0]!, ...(passed.some(({ touchesLife }) => touchesLife) ? { touchesLife: true as const } : {}) }
  }
  return undefined
}
/** The same code, whatever stands in its braces: DRAIN-{DrainPipe} became DRAIN-{DrainCode}. */
const stem = (code: unknown): string =>
  textOf(code)
    .replace(/\{\w+\}/g, '{}')
    .replace(/(?:\{\})+$/, '')

const repriced: Readonly<Record<string, { was: string; now: string; times: number }>> = { ...repriced070, ...repriced210 }

/** Roof coefficients that 0.1.0 wrote. */
const roofs010: Readonly<Record<string, number>> = { 'asphalt shingle': 0.9 }

export function officeUpdate(raw: RawOffice): OfficeUpdate {
  const changes: OfficeChange[] = []
  const own: string[] = []
  const rowsOf = (table: TableName): readonly RawRow[] => raw[table].rows.filter(({ cells }) => Object.values(cells).some((cell) => textOf(cell) !== ''))
  const newItem = new Map(defaultItems.map((item) => [stem(item.Code), item]))
  const standing = new Set<string>()
  for (const { row, cells } of rowsOf('Items')) {
    const key = stem(cells.Code)
    const next = newItem.get(key)
    const old = items010.find((item) => textOf(item.Code) === textOf(cells.Code))
    standing.add(key)
    if (!next || isSame(cells, next, Object.keys(fieldsOf('Items')))) continue
    if (
      isSame(
        cells,
        next,
        Object.keys(fieldsOf('Items')).filter((column) => !CUT_COLUMNS.includes(column)),
      ) &&
      CUT_COLUMNS.every((column) => textOf(cells[column]) === '')
    ) {
      changes.push({ table: 'Items', key: textOf(cells.Code), row, cells: next, reason: 'pieces order the sticks that they come out of', touchesLife: false })
      continue
    }
    const one = changedSince(cells, next)
    if (one) {
      changes.push({ table: 'Items', key: textOf(cells.Code), row, cells: next, reason: one.reason, touchesLife: one.touchesLife ?? false })
      continue
    }
    if (!old || !isSame(cells, old, ITEM_COLUMNS)) own.push(`${textOf(cells.Code)} of ${raw.Items.sheet}, row ${row}`)
    else {
      const [reason, touchesLife = false] = reasons[textOf(cells.Code)] ?? ['words and figures follow the newer rules']
      changes.push({ table: 'Items', key: textOf(cells.Code), row, cells: next, reason, touchesLife })
    }
  }
  // Ports are counted in a row of plugs that the office made its own.
  const isCountedIn = (item: Readonly<Record<string, unknown>>) => textOf(item.Code) === 'PLUG-{TankPort_in}' && own.some((row) => row.startsWith('PLUG{PortSuffix} '))
  for (const [key, item] of newItem)
    if (!standing.has(key) && !isCountedIn(item))
      changes.push({
        table: 'Items',
        key: textOf(item.Code),
        row: undefined,
        cells: item,
        reason: `new: ${textOf(item.Description).replace(/,?\s*\{[^}]*\}(?: in\b)?/g, '')}`,
        touchesLife: reasons[textOf(item.Code)]?.[1] ?? false,
      })
  for (const { row, cells } of rowsOf('Roofs')) {
    const surface = textOf(cells.Surface)
    const at = roofs.rows.findIndex((known) => known.surface === surface)
    if (at >= 0 && Object.hasOwn(roofs010, surface) && cells.Runoff === roofs010[surface])
      changes.push({
        table: 'Roofs',
        key: surface,
        row,
        cells: { Surface: surface, Runoff: roofs.rows[at]!.runoff!, Source: citationText(roofs.sourceOf(at)) },
        reason: 'a metal roof yields no less than shingles',
        touchesLife: false,
      })
  }
  for (const { row, cells } of rowsOf('Prices')) {
    const slip = Object.hasOwn(wrongUnits010, textOf(cells.Code)) ? wrongUnits010[textOf(cells.Code)]! : undefined
    if (slip && textOf(cells.Unit) === slip.wrong)
      changes.push({
        table: 'Prices',
        key: textOf(cells.Code),
        row,
        cells: { ...(cells as Record<string, CellValue>), Unit: slip.right },
        reason: 'the unit was written wrong',
        touchesLife: false,
      })
  }
  for (const { row, cells } of rowsOf('Prices')) {
    const code = textOf(cells.Code)
    const other = Object.hasOwn(repriced, code) ? repriced[code]! : undefined
    // Only with its rule: a row of the office's own keeps its unit.
    if (!other || ![other.was, ''].includes(textOf(cells.Unit)) || !changes.some(({ table, key }) => table === 'Items' && stem(key) === code)) continue
    const Price_usd = typeof cells.Price_usd === 'number' ? Math.round(cells.Price_usd * other.times * 100) / 100 : (cells.Price_usd as CellValue)
    changes.push({
      table: 'Prices',
      key: code,
      row,
      cells: { ...(cells as Record<string, CellValue>), Unit: other.now, Price_usd },
      reason: `by the ${other.now}, ${other.times} times a ${other.was}`,
      touchesLife: false,
    })
  }
  const priced = new Set(rowsOf('Prices').map(({ cells }) => textOf(cells.Code)))
  // Every code that a new workbook prices, with its price to be filled in.
  for (const { cells } of startingOffice(false).Prices.rows) {
    const code = textOf(cells.Code)
    if (!priced.has(code) && changes.some(({ table }) => table === 'Items'))
      changes.push({ table: 'Prices', key: code, row: undefined, cells: cells as Record<string, CellValue>, reason: 'its price, to be filled in', touchesLife: false })
  }
  const columns = (Object.keys(raw) as TableName[]).flatMap((table) => {
    const names = Object.keys(fieldsOf(table)).filter((name) => !raw[table].columns.includes(name))
    return names.length && raw[table].rows.length ? [{ table, names }] : []
  })
  return { changes: changes.sort((one, other) => Number(other.touchesLife) - Number(one.touchesLife)), columns, own }
}
