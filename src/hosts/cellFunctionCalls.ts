/**
 * Calls of cell functions as Excel stores them in a file: a dynamic-array cell with the name in its stored spelling.
 * Written plainly, such a call stays #NAME? until each cell is entered again. exceljs has no such cell, so the
 * finished zip is changed: the cells, one metadata part, its content type and its relationship.
 */
import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate'
import { NAMESPACE } from '../calc/callByName.js'

export const STORED_PREFIX = `_xldudf_${NAMESPACE}_`
const plainCall = new RegExp(`\\b${NAMESPACE}\\.([A-Z][A-Z0-9]*)\\(`, 'g')

const METADATA = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>
<metadata xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:xda="http://schemas.microsoft.com/office/spreadsheetml/2017/dynamicarray"><metadataTypes count="1"><metadataType name="XLDAPR" minSupportedVersion="120000" copy="1" pasteAll="1" pasteValues="1" merge="1" splitFirst="1" rowColShift="1" clearFormats="1" clearComments="1" assign="1" coerce="1" cellMeta="1"/></metadataTypes><futureMetadata name="XLDAPR" count="1"><bk><extLst><ext uri="{bdbb8cdc-fa1e-496e-a857-3c3f30c029c3}"><xda:dynamicArrayProperties fDynamic="1" fCollapsed="0"/></ext></extLst></bk></futureMetadata><cellMetadata count="1"><bk><rc t="1" v="0"/></bk></cellMetadata></metadata>`
const CONTENT_TYPE = '<Override PartName="/xl/metadata.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheetMetadata+xml"/>'
const RELATIONSHIP = '<Relationship Id="rIdMetadata" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/sheetMetadata" Target="metadata.xml"/>'

/** True when a formula calls a cell function. */
export const callsCellFunction = (formula: string): boolean => formula.search(plainCall) >= 0

export function storeCalls(bytes: Uint8Array): Uint8Array {
  const parts = unzipSync(bytes)
  const change = (name: string, work: (text: string) => string) => (parts[name] = strToU8(work(strFromU8(parts[name]!))))
  for (const name of Object.keys(parts)) if (/^xl\/worksheets\/[^/]+\.xml$/.test(name)) change(name, storedSheet)
  change('[Content_Types].xml', (text) => text.replace('</Types>', `${CONTENT_TYPE}</Types>`))
  change('xl/_rels/workbook.xml.rels', (text) => text.replace('</Relationships>', `${RELATIONSHIP}</Relationships>`))
  parts['xl/metadata.xml'] = strToU8(METADATA)
  return zipSync(parts, { level: 6 })
}

const storedSheet = (xml: string): string =>
  xml.replace(/<c r="([A-Z]+\d+)"([^>]*)><f>([^<]*)<\/f>/g, (cell: string, reference: string, attributes: string, formula: string) =>
    callsCellFunction(formula) ? `<c r="${reference}"${attributes} cm="1"><f t="array" ref="${reference}">${formula.replace(plainCall, `${STORED_PREFIX}$1(`)}</f>` : cell,
  )
