/** What people wrote on sheets of ours beside the cells that are read back, found by what is about to be written there. */
import { settledOnTakeoff, takeoffHeadings } from '../plan/keptTakeoff.js'
import { columnLetters, isMadeLine, PUT_BEFORE, type Role, type SheetPlan } from '../plan/plan.js'
import { fromEntries } from '../plan/keptEntries.js'
import { sheetKinds } from '../plan/sheets/index.js'
import { TAKEOFF_HEADING_ROW, takeoffColumns, type TakeoffColumn } from '../plan/sheets/takeoffColumns.js'
import { placesInWords } from '../takeoff/fields.js'
import { olderWords } from '../takeoff/older/plainWords.js'
import { markOfFigure, markOfWords } from '../plan/cellMarks.js'
import type { JobSheetNames } from '../plan/jobSheets.js'
import { AS_LAST_MADE, countsOf, madeWithIn, MOST_COUNTED, type MadeWith } from '../plan/sheets/asMade.js'
import type { SheetCell, SheetContent } from './host.js'

/** Empty, or with the heading lines of our sheets. */
export const isOurs = (content: SheetContent, mayBeEmpty: boolean): boolean =>
  content.slice(0, PUT_BEFORE).some((row) => row.slice(0, PUT_BEFORE).some(({ value }) => isMadeLine(value))) ||
  (mayBeEmpty && content.every((row) => row.every(({ value }) => value === null)))

/** Headings of ours that later versions word otherwise, by column. */
const olderHeadings: readonly string[] = ['3 Name, or where a limit is from']

/** A cell of a takeoff that was put where it is written now, and where it stands. */
interface Aligned extends SheetCell {
  stands?: { row: number; at: number }
}
const placeText = ({ name }: SheetPlan, row: number, at: number, words: string, { stands = { row, at } }: Aligned = { value: null }): string =>
  `${name}!${columnLetters(stands.at + 1)}${stands.row + 1} (${words})`
const shortened = (value: unknown): string => `"${String(value).slice(0, 40)}"`
const shown = ({ value, formula }: SheetCell): string => (formula === undefined ? shortened(value) : `=${formula.slice(0, 40)}`)

/** What people wrote on a sheet of ours and nothing reads back: it would be gone when the sheet is made again. `made` is what it was made with. */
export function lostTyping(plan: SheetPlan, standing: SheetContent | undefined, { words, figures }: MadeWith = {}, kept: Kept = nothingSettled): string[] {
  if (!standing || !isOurs(standing, false)) return []
  const content = plan.kind === 'takeoff' ? aligned(standing) : standing
  return [
    ...new Set([
      ...besideOurs(plan, content, { words, figures }, kept.settledOn(content)),
      ...(words ? amongOurs(plan, content, words, kept) : []),
      ...(words && figures ? figuresLost(plan, standing, words, figures, kept) : []),
    ]),
  ]
}
interface Kept {
  /** Words that another sheet says now. */
  said: readonly string[]
  /** Cells of a sheet that are read back or refused, as "row column" from 1. */
  settledOn(content: SheetContent): ReadonlySet<string>
}
const nothingSettled: Kept = { said: [], settledOn: () => new Set() }

/** Numbers and formulas that stand there more often than they were made, and than they will. Rows move: their places tell nothing. */
function figuresLost(plan: SheetPlan, content: SheetContent, words: ReadonlySet<string>, figures: ReadonlyMap<string, number>, { said, settledOn }: Kept): string[] {
  const settled = settledOn(content)
  const planned = countsOf(plan.cells)
  const ours = new Map(plan.cells.map((cell) => [`${cell.row} ${cell.column}`, cell]))
  const isNew = (value: SheetCell['value']) => {
    const mark = markOfFigure({ value })
    return mark !== undefined && (planned.get(mark) ?? 0) > (figures.get(mark) ?? 0)
  }
  const entries = [...newEntries(plan, words), ...said]
  const hidden = hiddenIn(plan, content)
  // A figure may be kept in the words of an entry, and a formula as what it came to.
  const isKept = ({ value, formula }: SheetCell) =>
    value !== null && value !== '' && ((formula !== undefined && isNew(value)) || entries.some((text) => holdsWhole(text, String(value))))
  const found = new Map<string, { place: string; isStrange: boolean }[]>()
  for (const [row, cells] of content.entries())
    for (const [at, cell] of cells.entries()) {
      const mark = markOfFigure(cell)
      const where = `${row + 1} ${at + 1}`
      if (mark === undefined || at + 1 === hidden || settled.has(where)) continue
      // A formula whose cell was deleted is nobody's: its row was taken off.
      if (isKept(cell) || cell.formula?.includes('#REF')) continue
      const our = ours.get(where)
      const isStrange = !our || markOfFigure(our) !== mark
      found.set(mark, [...(found.get(mark) ?? []), { place: placeText(plan, row, at, shown(cell)), isStrange }])
    }
  return [...found].flatMap(([mark, here]) => {
    const known = figures.get(mark) ?? 0
    // Beyond the most that is counted nobody knows how often it was made.
    const tooMany = known >= MOST_COUNTED ? 0 : here.length - Math.max(known, planned.get(mark) ?? 0)
    // Those where we would write something else are theirs before those where we write the same.
    return tooMany > 0 ? [...here.filter(({ isStrange }) => isStrange), ...here.filter(({ isStrange }) => !isStrange)].slice(0, tooMany).map(({ place }) => place) : []
  })
}

/** Words in cells between ours: none that the sheet was made with, and none that it says again. */
function amongOurs(plan: SheetPlan, content: SheetContent, made: ReadonlySet<string>, { said, settledOn }: Kept): string[] {
  const same = new Set(textsIn(plan).map((text) => text.trim()))
  // What was typed in a cell may be kept within the words of an entry: none that were there before it.
  const says = [...said, ...newEntries(plan, made)]
  const hidden = hiddenIn(plan, content)
  const settled = settledOn(content)
  // Words of a line are looked at beside what the line says now.
  const lines = new Set(plan.kind === 'takeoff' ? wordsOver(plan, content).map(({ place }) => place) : [])
  return content.flatMap((cells, row) =>
    cells.flatMap((cell, at) => {
      const { value, formula } = cell
      if (typeof value !== 'string' || value.trim() === '' || formula !== undefined || isMadeLine(value)) return []
      if (at + 1 === hidden || settled.has(`${row + 1} ${at + 1}`)) return []
      const place = placeText(plan, row, at, shortened(value), cell)
      return made.has(markOfWords(value)) || same.has(value.trim()) || says.some((words) => holdsWhole(words, value.trim())) || lines.has(place) ? [] : [place]
    }),
  )
}

/** Cells that people write into, and lines that keep what they wrote. */
const ENTRIES: readonly Role[] = ['entry', 'siteEntry', 'input', 'inputText']
/** Words of entries that the sheet did not have when it was made. */
const newEntries = ({ cells }: SheetPlan, made: ReadonlySet<string>): string[] =>
  cells.flatMap(({ role, value }) => (ENTRIES.includes(role) && typeof value === 'string' && value !== '' && !made.has(markOfWords(value)) ? [value] : []))
/** Whether words stand within others as they are: 2 is not within 12. */
function holdsWhole(text: string, words: string): boolean {
  const isLetter = (sign: string | undefined) => sign !== undefined && /[\p{L}\p{N}]/u.test(sign)
  // A point or comma goes on with a number where a figure stands behind it.
  const goesOn = (sign: string | undefined, next: string | undefined) => isLetter(sign) || (/^[.,]$/.test(sign ?? '') && /^\d$/.test(next ?? ''))
  for (let at = text.indexOf(words); at >= 0; at = text.indexOf(words, at + 1)) {
    const end = at + words.length
    if (!(isLetter(words[0]) && goesOn(text[at - 1], text[at - 2])) && !(isLetter(words.at(-1)) && goesOn(text[end], text[end + 1]))) return true
  }
  return false
}
/** Where the column that is for the next making stands: another column may have been put before it. */
function hiddenIn({ hiddenColumn }: SheetPlan, content: SheetContent): number | undefined {
  for (const row of content) {
    const at = row.findIndex(({ value }) => value === AS_LAST_MADE)
    if (at >= 0) return at + 1
  }
  return hiddenColumn
}
const textsIn = ({ cells }: SheetPlan): string[] => cells.flatMap(({ value }) => (typeof value === 'string' ? [value] : []))

function besideOurs(plan: SheetPlan, content: SheetContent, { words: made, figures }: MadeWith, settled: ReadonlySet<string>): string[] {
  // What is written beside the entries of some sheets is read back with them.
  if (sheetKinds.some(({ kind, lists }) => kind === plan.kind && lists?.some(({ onlyEntries }) => !onlyEntries))) return []
  const columns = new Set(plan.cells.map(({ column }) => column))
  const lost =
    plan.kind === 'takeoff'
      ? wordsOver(plan, content).flatMap(({ place, isFormula, words }) => (isFormula && !made?.has(markOfWords(words)) && !olderWords.has(words) ? [place] : []))
      : []
  const hidden = hiddenIn(plan, content)
  const headings = new Set(plan.cells.filter(({ row }) => row <= plan.frozenRows).map(({ row, column }) => `${row} ${column}`))
  // A heading of ours that stood a row higher in an earlier version is nobody's word.
  const ourHeadings = new Set([...plan.cells.filter(({ row }) => row <= plan.frozenRows).map(({ column, value }) => `${column} ${value}`), ...olderHeadings])
  for (const [row, cells] of content.entries())
    for (const [at, cell] of cells.entries()) {
      const { value, formula } = cell
      if ((value === null || value === '') && formula === undefined) continue
      if (at + 1 === hidden) continue
      // One of ours whose column moved is nobody's.
      if (typeof value === 'string' && formula === undefined ? made?.has(markOfWords(value)) : figures?.has(markOfFigure({ value, formula }) ?? '')) continue
      const isFree = !columns.has(at + 1) || (row < plan.frozenRows && !headings.has(`${row + 1} ${at + 1}`) && !ourHeadings.has(`${at + 1} ${value}`))
      if (isFree && !settled.has(`${row + 1} ${at + 1}`)) lost.push(placeText(plan, row, at, shown(cell), cell))
    }
  return lost
}

const hasEntries = ({ kind }: SheetPlan): boolean => sheetKinds.some((one) => one.kind === kind && one.lists)

/** What the sheets of a job would lose, as `read` finds them standing. */
export function typingLostOf(plans: readonly SheetPlan[], read: (sheet: string) => SheetContent | undefined): string[] {
  const changes = plans.find(({ kind }) => kind === 'changes')
  const standing = changes && read(changes.name)
  const made = standing && madeWithIn(standing)
  const names = Object.fromEntries(plans.map(({ kind, name }) => [kind, name])) as Partial<JobSheetNames>
  const crew = plans.find(({ kind }) => kind === 'crew')
  // What was entered for a line that is no more stands among what was written by hand on the sheet Crew.
  const movedToCrew = crew ? newEntries(crew, made?.get('crew')?.words ?? new Set()) : []
  return plans.flatMap((plan) => {
    const content = read(plan.name)
    const own = plan.kind === 'together' ? content && madeWithIn(content) : made
    const readBack = (rows: SheetContent): ReadonlySet<string> =>
      plan.kind === 'takeoff' ? settledOnTakeoff(rows, { ...names, takeoff: plan.name }) : hasEntries(plan) ? fromEntries(rows, plan.name).settled : new Set()
    const known = new Map<SheetContent, ReadonlySet<string>>()
    return lostTyping(plan, content, own?.get(plan.kind), {
      // Who signed an earlier change order stands among the changes now.
      said: plan.kind === 'amend' && changes ? textsIn(changes) : movedToCrew,
      settledOn: (rows) => known.get(rows) ?? known.set(rows, readBack(rows)).get(rows)!,
    })
  })
}

/** Plain words of lines that somebody typed over ours, and that are written anew; where the sheets do not say what they were made with, words that were changed in Items are among them. */
export function renewedWords(plans: readonly SheetPlan[], read: (sheet: string) => SheetContent | undefined): string[] {
  const [takeoff, changes] = (['takeoff', 'changes'] as const).map((wanted) => plans.find(({ kind }) => kind === wanted))
  const [standing, kept] = [takeoff && read(takeoff.name), changes && read(changes.name)]
  const made = kept && madeWithIn(kept).get('takeoff')?.words
  if (!takeoff || !standing || !isOurs(standing, false)) return []
  // A unit and a kind are words of many lines: what stands beside this one is what counts.
  return wordsOver(takeoff, aligned(standing)).flatMap(({ place, isFormula, words, isOfMany }) => (isFormula || (made?.has(markOfWords(words)) && !isOfMany) ? [] : [place]))
}

export const renewedNote = (places: readonly string[]): readonly string[] => (places.length ? [`Written anew, as the sheet Items has them: ${placesInWords(places)}`] : [])

/** A takeoff whose columns stand in another order, or rows lower, as if they stood where they are written now; columns of somebody's own come behind. */
function aligned(content: SheetContent): SheetContent {
  const headings = takeoffHeadings(content)
  if (!headings) return content
  const down = headings.row - (TAKEOFF_HEADING_ROW - 1)
  const known = new Map([...headings.columns].map(([name, at]) => [at, takeoffColumns[name as TakeoffColumn] - 1]))
  const ours = new Set(known.values())
  const across = headings.columns.get('code')! - (takeoffColumns.code - 1)
  return content.slice(Math.max(0, down)).map((row, at) => {
    const cells = row.map((cell, from) => ({ cell, from, to: at < TAKEOFF_HEADING_ROW - 1 ? from - across : (known.get(from) ?? (ours.has(from) ? BEHIND + from : from)) }))
    const moved = Array.from({ length: Math.max(0, ...cells.map(({ to }) => to)) + 1 }, (): Aligned => ({ value: null }))
    for (const { cell, from, to } of cells)
      if (to >= 0 && (cell.value !== null || cell.formula !== undefined)) moved[to] = { ...cell, stands: { row: at + Math.max(0, down), at: from } }
    return moved
  })
}
/** Where one of ours stands now, a column of somebody's own is told behind them all. */
const BEHIND = 30

/** Words that stand in the place of a description or a reason of ours, and whether a formula of ours writes it. */
function wordsOver(plan: SheetPlan, content: SheetContent): { place: string; isFormula: boolean; words: string; isOfMany: boolean }[] {
  const cellOf = (row: number, column: number) => plan.cells.find((cell) => cell.row === row && cell.column === column)
  const rowOfCode = new Map(plan.cells.flatMap(({ row, column, value }) => (column === takeoffColumns.code && value ? [[String(value), row] as const] : [])))
  return [...content.entries()].flatMap(([at, cells]) => {
    const row = rowOfCode.get(String(cells[takeoffColumns.code - 1]?.value ?? ''))
    // A line by hand may have a code of ours; it has neither waste nor lot.
    const isLineOfOurs = (['waste', 'lot'] as const).every(
      (name) => (cells[takeoffColumns[name] - 1]?.value ?? null) !== null || cells[takeoffColumns[name] - 1]?.formula !== undefined,
    )
    if (row === undefined || !isLineOfOurs) return []
    return (['description', 'unit', 'kind', 'why'] as const).flatMap((name) => {
      const column = takeoffColumns[name]
      const { value, formula } = cells[column - 1] ?? { value: null }
      const ours = cellOf(row, column)
      if (!ours || formula !== undefined || value === null || value === '' || value === ours.value) return []
      return [
        {
          place: placeText(plan, at, column - 1, shortened(value), cells[column - 1]),
          isFormula: ours.formula !== undefined,
          words: String(value),
          isOfMany: name === 'unit' || name === 'kind',
        },
      ]
    })
  })
}
