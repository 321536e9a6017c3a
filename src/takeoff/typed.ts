/** What people typed on the sheets of an earlier making, by the code of the line or step that it belongs to. */
import type { Problem } from './fields.js'
import type { ItemKind } from './officeTables.js'

/** What an estimator typed over on an earlier takeoff of the job, by the code of the line. */
export interface Override {
  quantity?: number
  price?: number
  /** The line as it stood, should no rule make it any more. */
  line?: AddedLine
  /** A rule of Items made it then. */
  wasOurs?: true
}
/** A line that the estimator added by hand. */
export interface AddedLine {
  code: string
  description: string
  unit: string
  quantity: number | null
  price: number | null
  /** What the money buys; nothing said counts as other. */
  kind?: ItemKind
  why: string
}
/** What the crew wrote, by the code of the step, tank or reading and what it is. */
export type CrewEntries = Readonly<Record<string, Readonly<Record<string, string | number>>>>
export interface CrewWritten {
  cells: CrewEntries
  added: readonly { text: string; done: string }[]
  /** Those of them that stood on another sheet than the crew's. */
  brought?: readonly string[]
}
/** An input of the Design sheet that somebody typed over. */
export interface TypedInput {
  sheet: string
  row: number
  name: string
  value: string
  asMade: string
}
export interface Kept {
  overrides: Readonly<Record<string, Override>>
  added: readonly AddedLine[]
  /** House figures of the Design sheet, typed over. */
  figures: Readonly<Record<string, number>>
  inputs: readonly TypedInput[]
  crew: CrewWritten
  /** What was typed and cannot be kept as it is. */
  problems: readonly Problem[]
}
export const nothingKept: Kept = { overrides: {}, added: [], figures: {}, inputs: [], crew: { cells: {}, added: [] }, problems: [] }
export const isNothing = (kept: Kept): boolean => JSON.stringify(kept) === JSON.stringify(nothingKept)
