/** What every host of a workbook can do for us, and one that a person looks at besides; nothing else in the project knows one. */
import { placesInWords } from '../takeoff/fields.js'
import type { OfficePlaces } from '../plan/places.js'
import type { SheetPlan } from '../plan/plan.js'
import type { RawOffice } from '../takeoff/office.js'
import type { TableName } from '../takeoff/officeTables.js'

export interface SheetCell {
  value: string | number | boolean | null
  /** Without the equals sign; undefined for a plain value. */
  formula?: string
}
/** The cells of a sheet from A1, row by row. */
export type SheetContent = readonly (readonly SheetCell[])[]

export interface Snapshot {
  /** The office's tables, or the names of those that are missing. */
  office: RawOffice | undefined
  missing: readonly string[]
  /** Tables that a workbook may lack, and this one does; they read as empty. */
  absent: readonly TableName[]
  places: OfficePlaces
  /** The sheets asked for that exist. */
  sheets: ReadonlyMap<string, SheetContent>
  /** Names of all sheets, by themselves in small letters. */
  sheetNames: ReadonlyMap<string, string>
}

/** A place on an office sheet: a row of a table and the heading of a column. */
export interface Place {
  sheet: string
  row: number
  column: string
}

/** Sheets that are written part by part, each part all or nothing; what can be done once for all of them is done at the end. */
export interface Writing {
  write(plans: readonly SheetPlan[]): Promise<void>
  /** Answers what a person should know, in words. */
  end(): Promise<readonly string[]>
}

export interface Host {
  /** Shown to people: "Excel", "this page", the name of a file. */
  readonly name: string
  /** Formulas will read the very cells of the office's tables as they stand; else what they mean is written into them. */
  readonly isLive: boolean
  /** Reads the office's tables and the sheets named. */
  read(sheets: readonly string[]): Promise<Snapshot>
  /** Reads further sheets; those that exist. */
  readSheets(sheets: readonly string[]): Promise<ReadonlyMap<string, SheetContent>>
  /** Further sheets of the same names in what this workbook is about to take the place of; a host that writes into itself has none. */
  readReplaced?(sheets: readonly string[]): Promise<ReadonlyMap<string, SheetContent>>
  /** Writes sheets, all or nothing: a failure leaves the workbook as it was. Answers what a person should know, in words. */
  write(plans: readonly SheetPlan[]): Promise<readonly string[]>
  /** The same in parts; a host that does nothing once for all of them has none. */
  writing?(): Promise<Writing>
  /** Whether one part may have so many sheets; a host without a limit says nothing. */
  holds?(plans: readonly SheetPlan[]): boolean
  /**
   * Puts rows under the headings of a table of the office, in the place of those that stand there, all or nothing; a heading
   * that is new goes to the right end. Refused where a formula of the table or anything beside it would be written over.
   */
  putRows(table: TableName, columns: readonly string[], rows: readonly (readonly SheetCell['value'][])[]): Promise<void>
  /** Puts cells into the first empty row of a table, or a new one at its end; answers the row. */
  addRow(table: TableName, cells: Readonly<Record<string, string | number>>): Promise<number>
}

/** A workbook that a person has before them. */
export interface ShownHost extends Host {
  select(place: Place): Promise<void>
  /** Shows a sheet. */
  show(sheet: string): Promise<void>
  /** Puts a formula into the active cell; answers its address. */
  insert(formula: string): Promise<string>
  /** Whether cells of this host can call the cell functions; where they cannot, takeoffs are made in ordinary formulas. */
  readonly takesCalls: boolean
  /** What formulas are made with unless asked otherwise. */
  readonly flavor: 'native' | 'cells'
  /** Enters formulas again whose cells show #NAME?, because functions were not there when the workbook opened; answers how many. */
  wake?(): Promise<number>
  /** Calls back with the sheet and row that a person selects. */
  onSelection(listener: (sheet: string, row: number) => void): void
  /** Calls back when the workbook has changed. */
  onChange(listener: () => void): void
}

/** Why rows are not put there: what stands in the way, and where. */
export const inTheWay = (sheet: string, places: readonly string[]): HostError =>
  new HostError(`${sheet}: ${placesInWords(places)} would be written over: move it to a sheet of your own. Nothing was changed.`)

/** Why no formula is put into a cell. */
export const holdsSomething = (place: string): string => `${place} holds something: pick an empty cell. Nothing was changed.`

/** A refusal of the host itself, in words: read-only, protected with a password, no cell selected. */
export class HostError extends Error {}
