/** A workbook in the hands of another program: exceljs opens what we wrote, changes it, and saves it its own way. */
import ExcelJS from 'exceljs'
import { openWorkbook, type Workbook } from '../../src/hosts/file.js'

export async function inExceljs(bytes: Uint8Array): Promise<ExcelJS.Workbook> {
  const workbook = new ExcelJS.Workbook()
  await workbook.xlsx.load(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength) as ArrayBuffer)
  return workbook
}
export const savedBy = async (workbook: ExcelJS.Workbook): Promise<Uint8Array> => new Uint8Array(await workbook.xlsx.writeBuffer())
export const reopened = async (workbook: ExcelJS.Workbook, name = 'a.xlsx'): Promise<Workbook> => openWorkbook(await savedBy(workbook), name)
