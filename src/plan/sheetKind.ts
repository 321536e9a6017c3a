/** A kind of sheet of a job: one definition that its name, its writer and the reader of what people type on it come from. */
import type { StockCuts } from '../takeoff/cutList.js'
import type { Design } from '../takeoff/design.js'
import type { Takeoff } from '../takeoff/takeoff.js'
import type { CallWriter, Flavor } from './calls.js'
import type { Earlier } from './earlier.js'
import type { NamePlaces, OfficePlaces } from './places.js'
import type { Made, SheetDraft, SheetPlan } from './plan.js'

/** What a sheet is laid out from. */
export interface JobContext {
  takeoff: Takeoff
  design: Design
  places: OfficePlaces
  /** Cells and ranges by name; a sheet adds its own for those that stand behind it. */
  names: NamePlaces
  flavor: Flavor
  writer: CallWriter
  /** Where the native flavour works its calls through. */
  working: SheetDraft
  heading: { title: string; made: string }
  made: Made
  /** What stood on the sheets of the job before. */
  earlier: Earlier
  /** Other jobs are made in the same go: their goods are ordered together. */
  isOneOfSeveral: boolean
  /** Pieces cut from stock, worked out once for all sheets. */
  cuts: readonly StockCuts[]
  /** Codes of the cells that people fill in on the sheets of this job. */
  entryCodes: ReadonlySet<string>
}

/** Rows with a code, and cells beside it that people fill in. They are read back by code and heading, wherever they stand. */
export interface EntryList {
  /** Before the code of an entry, where another sheet has the same codes. */
  prefix?: string
  /** Beside its entries nothing is written on the sheet by hand. */
  onlyEntries?: true
  /** Words of the headings, by what is kept under them. */
  headings: Readonly<Record<string, string>>
  /** Keys of the cells that people write into. */
  entries: readonly string[]
  isCode(code: string): boolean
  /** Of those, keys that count only beside another one: what an answer was given for, where none was. */
  beside?: readonly string[]
  /** Further keys, of some codes alone. */
  alsoOf?(code: string): readonly string[]
  /** What can have been read in an entry that takes a number; nothing where it takes words. */
  span?(code: string, key: string): { least: number; most: number; unit: string } | undefined
  /** Whether words beside a code are what the sheet itself writes there. */
  isOurWord(code: string, key: string, words: string): boolean
}

export interface SheetKind<K extends string = string> {
  kind: K
  /** Where it stands among the sheets of a job, from the left. */
  place: number
  /** The sheet's name is this word and the job's name. */
  prefix: string
  lists?: readonly EntryList[]
  /** Earlier versions had entries on it; they are read still. */
  hadEntries?: true
  /** Codes of the entries that this job has room for, with their prefix. */
  codes?(takeoff: Takeoff): readonly string[]
  /** Whether words between the entries are what the sheet itself writes. */
  isOurLine?(words: string): boolean
  /** Gives names their cells before any sheet is laid out: such a sheet may be pointed to by all others. */
  placed?(names: NamePlaces, sheet: string, design: Design): void
  /** Nothing where this job or this flavour has no such sheet. */
  plan(job: JobContext, sheet: string): SheetPlan | undefined
}

export const sheetKind = <const K extends string>(kind: SheetKind<K>): SheetKind<K> => kind

/** How many inputs and verdicts on the Design sheet are no more what they were when the job was made; no column of an office can have this name. */
export const CHANGED_SINCE = 'Changed since'
/** Lines, parts, cuts and options are chosen when a job is made: beside other figures they mean nothing. */
const OUT_OF_DATE = 'OUT OF DATE: figures have changed since. Correct the row of Jobs, then make the takeoff again.'
const UNCOUNTED_YET = 'OUT OF DATE: a line by hand is not counted yet, or one of ours was taken off or typed over. Make the takeoff again.'

/** So many letters of a title stand beside the firm's name for sure. */
const LONG_TITLE = 55
/** Whether the title of a sheet is cut beside the firm's name: a paper that is signed says the whole site once more. */
export const isLong = ({ title }: JobContext['heading']): boolean => title.length > LONG_TITLE

/** The heading lines of a sheet of a job, which say so when its figures are no more those that it was made with; `also` counts lines by hand that no sum counts, where a sheet shows one. */
export function headed(draft: SheetDraft, { heading, names }: Pick<JobContext, 'heading' | 'names'>, sheet: string, what: string, also?: string): void {
  const plain = `"${what.replace(/"/g, '""')}"`
  draft.heading(heading.title, what, heading.made, `IF(${names.from(sheet)(CHANGED_SINCE)}>0,"${OUT_OF_DATE}",${also ? `IF(${also}>0,"${UNCOUNTED_YET}",${plain})` : plain})`)
}
