/** Sheets on paper: type as printed, rows that a glove can write into, pages counted by Calc, nothing shown as ###. */
import { mkdtempSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { closingWords } from '../../src/takeoff/cautions.js'
import { describe, expect, it } from 'vitest'
import { writeWorkbook } from '../../src/hosts/file.js'
import { rowHeights } from '../../src/plan/heights.js'
import { jobSheets } from '../../src/plan/jobSheets.js'
import { looks } from '../../src/plan/looks.js'
import { officeSheets } from '../../src/plan/officeSheets.js'
import { standardPlaces } from '../../src/plan/places.js'
import type { SheetPlan } from '../../src/plan/plan.js'
import { tablesSheet } from '../../src/plan/tablesSheet.js'
import { startingOffice } from '../../src/takeoff/demo.js'
import { canReadPdf, convertWithCalc, hasCalc, pagesOf } from '../support/calc.js'
import { demoTakeoff, leastRow, takeoffOf } from '../support/office.js'

const made = { date: '2026-11-25', revision: 1, version: 'test' }
/** Points between our margins, the narrower of letter and A4 each way; and of a unit of column width in the widest program. */
const [UPRIGHT, ACROSS, WIDTH] = [523, 720, 5.25]
/** Type at the desk, type on site: larger than most hands-on sheets have, so that it is read in the rain. */
const [DESK, SITE] = [9, 10.5]
const SITE_ROLES = ['site', 'siteOther', 'siteLabel', 'siteFact', 'siteCode', 'siteFigure', 'siteHold', 'siteEntry', 'hazard']

const sheetsOf = (name: string) => jobSheets(demoTakeoff(name), standardPlaces(), 'native', made)
function scaleOf(plan: SheetPlan): number {
  if (plan.toScale) return 1
  if (plan.print?.percent !== undefined) return plan.print.percent / 100
  return Math.min(1, (plan.landscape ? ACROSS : UPRIGHT) / (plan.widths.slice(0, plan.print?.lastColumn).reduce((sum, width) => sum + width, 0) * WIDTH))
}

describe.each([...['Wicket Mill', 'Ember Yard'].flatMap(sheetsOf), ...officeSheets(startingOffice(true), made), tablesSheet(made)].map((plan) => [plan.name, plan] as const))(
  '%s',
  (_, plan) => {
    it('has no type smaller than it should be, as printed', () => {
      const scale = scaleOf(plan)
      for (const { role, value, look = looks[role] } of plan.cells) {
        if (value === null || value === '') continue
        const least = SITE_ROLES.includes(role) && ['crew', 'test'].includes(plan.kind) ? SITE : DESK
        // The share is a whole percent.
        expect((look.size ?? 10) * scale, `${role} at ${scale}`).toBeGreaterThan(least - 0.1)
      }
    })
    it('has rows of 8.5 mm where people write on site', () => {
      const heights = rowHeights(plan)
      for (const { row, role } of plan.cells) if (role === 'siteEntry') expect((heights.get(row)! * scaleOf(plan) * 25.4) / 72).toBeGreaterThan(7.9)
    })
  },
)

describe.runIf(hasCalc && canReadPdf)('in Calc', () => {
  it('a quote, a drawing and changes take one page each, and no figure is cut to ###', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'paper-'))
    const takeoffs = [...['Fernlow 12', 'Thistle Brow', 'Wicket Mill'].map((name) => demoTakeoff(name)), takeoffOf({ ...leastRow, TankCount: 12, RainIntensity_in_per_h: 1 })]
    const kinds = ['quote', 'drawing', 'changes', 'takeoff', 'order', 'crew', 'test', 'handover']
    // The long sheets of one job say what those of the others would.
    const plans = takeoffs.flatMap((takeoff, at) => jobSheets(takeoff, standardPlaces(), 'native', made).filter(({ kind }) => at === 0 || kinds.includes(kind)))
    const values = plans.map((plan) => ({ ...plan, cells: plan.cells.map(({ formula: _formula, ...cell }) => cell) }))
    writeFileSync(join(folder, 'paper.xlsx'), writeWorkbook({ sheets: values }))
    const pdf = await convertWithCalc(join(folder, 'paper.xlsx'), 'pdf', join(folder, 'out'))
    const pages = pagesOf(pdf)
    const foot = (page: string) => page.trimEnd().split('\n').slice(-3)
    const count = (sheet: string) => pages.filter((page) => foot(page).some((line) => line.trimStart().startsWith(`${sheet} `))).length
    // Who decides stands at the foot of every page.
    expect(pages.filter((page) => page.trim() !== '' && !foot(page).some((line) => line.includes(closingWords)))).toEqual([])
    for (const { design } of takeoffs) {
      for (const kind of ['Drawing', 'Changes']) expect(count(`${kind} ${design.name}`), `${kind} ${design.name}`).toBe(1)
      // A job of which little is known rests on much, and its quote says so on a second page.
      expect(count(`Quote ${design.name}`), design.name).toBe(design.name === 'Least' ? 2 : 1)
    }
    expect(pages.join('\n')).not.toContain('###')
  })
})
