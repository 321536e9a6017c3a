/** A workbook in the hands of another program: exceljs opens what we wrote, changes it, and saves it its own way. */
import ExcelJS from 'exceljs'
import { openWorkbook, type Workbook } from '../../src/hosts/file.js'

/** Without its lists of allowed values: exceljs keeps them a cell each, which takes longer than all else. `whole` keeps them. */
export async function inExceljs(bytes: Uint8Array, { whole = false } = {}): Promise<ExcelJS.Workbook> {
  const workbook = new ExcelJS.Workbook()
  await workbook.xlsx.load(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength) as ArrayBuffer, whole ? {} : { ignoreNodes: ['dataValidations'] })
  return workbook
}
/** Stored, not compressed: nothing that is read again becomes another thing by it, and half the time is saved. */
export const savedBy = async (workbook: ExcelJS.Workbook): Promise<Uint8Array> =>
  new Uint8Array(await workbook.xlsx.writeBuffer({ zip: { compression: 'STORE' } } as Partial<ExcelJS.XlsxWriteOptions>))
export const reopened = async (workbook: ExcelJS.Workbook, name = 'a.xlsx'): Promise<Workbook> => openWorkbook(await savedBy(workbook), name)
