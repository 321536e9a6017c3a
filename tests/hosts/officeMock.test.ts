/** The smallest calls of the Excel host against Microsoft's own mock of the Office objects. */
import { OfficeMockObject } from 'office-addin-mock'
import { describe, expect, it } from 'vitest'
import { ExcelHost } from '../../src/hosts/excel.js'

function mocked() {
  const data = {
    context: {
      workbook: {
        cell: { address: 'Sheet1!B2', formulas: [['']] },
        getActiveCell() {
          return (this as unknown as { cell: unknown }).cell
        },
        worksheets: {
          sheet: {
            activated: false,
            activate() {
              this.activated = true
            },
          },
          getItem() {
            return (this as unknown as { sheet: unknown }).sheet
          },
        },
      },
    },
    async run(work: (context: unknown) => Promise<unknown>) {
      return work(this.context)
    },
  }
  return new OfficeMockObject(data) as unknown as { context: typeof data.context; run: typeof data.run }
}

describe('ExcelHost on office-addin-mock', () => {
  it('reads the address of the cell only after load and sync', async () => {
    const excel = mocked()
    const host = new ExcelHost((work) => excel.run(work as never) as never)
    expect(await host.insert('=CISTERN.PEAKFLOW(2500,4.7)')).toBe('Sheet1!B2')
    expect(excel.context.workbook.cell.formulas).toEqual([['=CISTERN.PEAKFLOW(2500,4.7)']])
  })
  it('activates the sheet it is asked to show', async () => {
    const excel = mocked()
    await new ExcelHost((work) => excel.run(work as never) as never).show('Takeoff Wicket Mill')
    expect(excel.context.workbook.worksheets.sheet.activated).toBe(true)
  })
})
