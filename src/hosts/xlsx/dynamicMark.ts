/** Formulas that may fill several cells: a file knows them by a mark of their cell, and says how far they reach. */
import { columnLetters, type PlanCell } from '../../plan/plan.js'
import { HEAD, MAIN, type Book } from './book.js'
import { attribute } from './xml.js'
import { WorkbookError } from './zip.js'

/** The cells that a formula fills, itself alone where it says nothing. */
export const filledBy = ({ row, column, spill }: Pick<PlanCell, 'row' | 'column' | 'spill'>): string => {
  const first = `${columnLetters(column)}${row}`
  return spill ? `${first}:${columnLetters(column + spill.columns - 1)}${row + spill.rows - 1}` : first
}

/** The number of that mark in the list of cell metadata, made where there is none. */
export function dynamicMark(book: Book): number {
  const standing = book.relations(book.mainPart).find(({ type }) => type.endsWith('/sheetMetadata'))?.target
  if (standing === undefined) {
    book.put('xl/metadata.xml', METADATA)
    book.declare('xl/metadata.xml', 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheetMetadata+xml')
    book.relate(book.mainPart, 'sheetMetadata', 'xl/metadata.xml')
    return 1
  }
  return ownMark(book, standing)
}

/** Finds or adds our mark among those of others; nothing of theirs is renumbered. */
function ownMark(book: Book, part: string): number {
  const text = book.text(part)
  let [types, type, blocks, value] = [0, 0, -1, -1]
  let list = ''
  const marks: { type: number; value: number }[] = []
  for (const tag of book.tags(part)) {
    const named = () => attribute(text, tag, 'name') === 'XLDAPR'
    if (tag.name === 'futureMetadata' || tag.name === 'cellMetadata') list = tag.isEnd ? '' : tag.name === 'cellMetadata' ? 'cells' : named() ? 'ours' : ''
    if (tag.isEnd) continue
    if (tag.name === 'metadataType') {
      types++
      if (type === 0 && named()) type = types
    } else if (list === 'ours' && tag.name === 'bk') blocks++
    else if (list === 'ours' && tag.name === 'dynamicArrayProperties' && value < 0 && attribute(text, tag, 'fDynamic') === '1') value = blocks
    else if (list === 'cells' && tag.name === 'rc') marks.push({ type: Number(attribute(text, tag, 't')), value: Number(attribute(text, tag, 'v')) })
  }
  if (type === 0 || value < 0)
    throw new WorkbookError(
      `${book.file}: its cells carry marks of another kind: calls of cell functions cannot be added to it. Make the takeoff in ordinary formulas (--flavor native).`,
    )
  const found = marks.findIndex((mark) => mark.type === type && mark.value === value)
  if (found >= 0) return found + 1
  book.insertBeforeEnd(part, 'cellMetadata', `<bk><rc t="${type}" v="${value}"/></bk>`)
  return marks.length + 1
}

const METADATA = `${HEAD}<metadata xmlns="${MAIN}" xmlns:xda="http://schemas.microsoft.com/office/spreadsheetml/2017/dynamicarray"><metadataTypes count="1"><metadataType name="XLDAPR" minSupportedVersion="120000" copy="1" pasteAll="1" pasteValues="1" merge="1" splitFirst="1" rowColShift="1" clearFormats="1" clearComments="1" assign="1" coerce="1" cellMeta="1"/></metadataTypes><futureMetadata name="XLDAPR" count="1"><bk><extLst><ext uri="{bdbb8cdc-fa1e-496e-a857-3c3f30c029c3}"><xda:dynamicArrayProperties fDynamic="1" fCollapsed="0"/></ext></extLst></bk></futureMetadata><cellMetadata count="1"><bk><rc t="1" v="0"/></bk></cellMetadata></metadata>`
