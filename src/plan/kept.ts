/** Reads back what people wrote on the sheets of a job: the estimator's own quantities, prices and lines, the crew's entries and readings. */
import { nothingKept, type AddedLine, type CrewWritten, type Kept, type Override } from '../takeoff/takeoff.js'
import { closingCaution } from '../takeoff/cautions.js'
import { CREW_HEADING_ROW, crewColumns, entryColumnsOf, LOG_DONE } from './crewSheet.js'
import { ADDED_SECTION, TAKEOFF_HEADING_ROW, takeoffColumns as columns } from './takeoffSheet.js'

interface Cell {
  value: unknown
  formula?: string
}

const number = (cell: Cell | undefined): number | undefined => (cell && cell.formula === undefined && typeof cell.value === 'number' ? cell.value : undefined)
const text = (cell: Cell | undefined): string => String(cell?.value ?? '').trim()

type Rows = readonly (readonly Cell[])[]

export const keptFrom = (takeoff: Rows | undefined, crew: Rows | undefined): Kept => ({
  ...(takeoff ? fromTakeoff(takeoff) : nothingKept),
  crew: crew ? fromCrew(crew) : nothingKept.crew,
})

function fromTakeoff(rows: Rows): Omit<Kept, 'crew'> {
  const overrides: Record<string, Override> = {}
  const added: AddedLine[] = []
  let isAdded = false
  for (const row of rows.slice(TAKEOFF_HEADING_ROW)) {
    const cell = (name: keyof typeof columns) => row[columns[name] - 1]
    const code = text(cell('code'))
    const description = text(cell('description'))
    if (code === ADDED_SECTION) isAdded = true
    else if (isAdded && code === '' && description === 'Added by hand, total') break
    else if (isAdded || (description !== '' && cell('order')?.formula === undefined && cell('amount')?.formula?.startsWith('SUM') !== true && !/, total$/.test(description))) {
      const quantity = number(cell('yours')) ?? number(cell('net')) ?? number(cell('order')) ?? null
      const price = number(cell('price')) ?? null
      if (code !== '' || description !== '') added.push({ code, description, unit: text(cell('unit')), quantity, price, why: text(cell('why')) })
    } else if (code !== '' && cell('order')?.formula !== undefined) {
      const quantity = number(cell('yours')) ?? number(cell('net'))
      const price = number(cell('price'))
      if (quantity !== undefined || price !== undefined) overrides[code] = { ...(quantity === undefined ? {} : { quantity }), ...(price === undefined ? {} : { price }) }
    }
  }
  return { overrides, added }
}

/** Entries beside our own steps and tanks; any other line is the crew's own. */
function fromCrew(rows: Rows): CrewWritten {
  const cells: Record<string, Record<number, string | number>> = {}
  const added: { text: string; done: string }[] = []
  const plain = (cell: Cell | undefined): string => (cell?.formula === undefined ? text(cell) : '')
  for (const row of rows.slice(CREW_HEADING_ROW)) {
    const code = text(row[crewColumns.code - 1])
    const [words, done] = [plain(row[crewColumns.text - 1]), plain(row[crewColumns.done - 1])]
    const columns = entryColumnsOf(code)
    if (columns) {
      for (const column of columns) {
        const { value, formula } = row[column - 1] ?? {}
        if (formula === undefined && ((typeof value === 'string' && value.trim() !== '') || typeof value === 'number')) (cells[code] ??= {})[column] = value
      }
    } else if ((words !== '' || done !== '') && words !== closingCaution && done !== LOG_DONE) added.push({ text: [code, words].filter(Boolean).join(' '), done })
  }
  return { cells, added }
}
