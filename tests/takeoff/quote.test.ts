/** The papers that leave the office: the quote adds to the cent and holds no cost, an open stop has no price; orders say what the takeoff says. */
import { codeOf, openStops } from '../../src/plan/stopAnswers.js'
import { describe, expect, it } from 'vitest'
import { makeTemplate, sourceOf } from '../../src/hosts/fileSession.js'
import { keptIn, makeJobs } from '../support/makings.js'
import { makingNotes } from '../../src/plan/makingNotes.js'
import { jobSheetNames, jobSheets } from '../../src/plan/jobSheets.js'
import { standardPlaces } from '../../src/plan/places.js'
import type { PlanCell, SheetPlan } from '../../src/plan/plan.js'
import { readOffice } from '../../src/takeoff/office.js'
import { makeTakeoff, type Takeoff } from '../../src/takeoff/takeoff.js'
import { nothingKept } from '../../src/takeoff/typed.js'
import { demoRows, demoTakeoff, leastRow, officeWith, takeoffOf } from '../support/office.js'
import { inExceljs, savedBy } from '../support/xlsx.js'

const made = { date: '2026-11-25', revision: 1, version: 'test' }
const sheetOf = (takeoff: Takeoff, sheet: 'quote' | 'order' | 'crew' | 'checks'): SheetPlan => {
  const name = jobSheetNames(takeoff.design.name)[sheet]
  return jobSheets(takeoff, standardPlaces(), 'native', made).find((plan) => plan.name === name)!
}
const numbers = ({ cells }: SheetPlan, column: number): number[] => cells.flatMap((cell) => (cell.column === column && typeof cell.value === 'number' ? cell.value : []))
const words = ({ cells }: SheetPlan): string => cells.map(({ value }) => String(value ?? '')).join('\n')
const labelled = ({ cells }: SheetPlan, label: string): PlanCell => {
  const at = cells.find(({ value }) => value === label)!
  return cells.find(({ row, column }) => row === at.row && column === 4)!
}

describe('the quote', () => {
  it.each(demoRows('Jobs').map(({ Job }) => String(Job)))('%s: sections, tax and price add to the cent', (name) => {
    const takeoff = demoTakeoff(name)
    const quote = sheetOf(takeoff, 'quote')
    const prices = numbers(quote, 4)
    const cents = prices.map((price) => Math.round(price * 100))
    expect(cents.slice(0, -1).reduce((sum, one) => sum + one, 0)).toBe(cents.at(-1))
    expect(prices.at(-1)).toBe(takeoff.total)
    expect(prices).not.toContain(takeoff.orderCost)
    expect(words(quote)).not.toMatch(/markup|overhead|hours/i)
  })
  it('is what its checks point to, whatever form of it fits the page', () => {
    // Without letterhead, terms and alternates there is room for the empty rows between its parts; with all of them there is none.
    const takeoffs = [takeoffOf({ ...leastRow, TankCount: 2, RainIntensity_in_per_h: 1 }, { House: [], Variants: [] }), demoTakeoff('Ember Yard'), demoTakeoff('Pipit Hollow')]
    const gaps = takeoffs.map((takeoff) => {
      const quote = sheetOf(takeoff, 'quote')
      const { row } = labelled(quote, 'Price, $')
      const check = sheetOf(takeoff, 'checks').cells.find(({ formula: text }) => text?.includes(`'${quote.name}'!`))!.formula!
      expect(check).toContain(`ISNUMBER('${quote.name}'!$D$${row})`)
      const head = quote.cells.find(({ value }) => value === 'PRICE')!.row
      return !quote.cells.some((cell) => cell.row === head - 1)
    })
    expect(gaps).toContain(true)
    expect(gaps).toContain(false)
  })
  it('offers the treatment that it charges for, and says so where there is none', () => {
    expect(words(sheetOf(demoTakeoff('Thistle Brow'), 'quote'))).toContain('A treatment set of filters and lamp at the house')
    expect(words(sheetOf(demoTakeoff('Thistle Brow'), 'quote'))).not.toContain('treatment for drinking')
    expect(words(sheetOf(demoTakeoff('Wicket Mill'), 'quote'))).toMatch(
      /Work inside the house other than the end of the line, pressure tank with relief valve, which are in it; treatment for drinking: the stored water is not drinkable without it\./,
    )
  })
  it('says every check that the price rests on', () => {
    const takeoff = demoTakeoff('Ember Yard')
    const checks = takeoff.design.verdicts().filter(({ verdict }) => verdict === 'check')
    expect(checks.length).toBeGreaterThan(0)
    // In full where the page has room for it, else what was found.
    for (const { words: said } of checks) expect(words(sheetOf(takeoff, 'quote'))).toContain(said.split('. ')[0]!)
  })
  it('says what an allowance costs a unit, overhead and markup in it, and what an alternate that the office offers comes to', () => {
    const takeoff = demoTakeoff('Wicket Mill')
    const { order, price } = takeoff.lines.find(({ code }) => code === 'DEWATER')!
    // By hand: the day of pumping at its list price, grown by the job's markup of 20 %; overhead is none.
    expect(words(sheetOf(takeoff, 'quote'))).toContain(`Pump pit or trench dry, a day: ${order} days at $${(price! * 1.2).toFixed(2)} before tax, settled by what it comes to.`)
    // Where overhead and markup lie on other kinds a subcontract is settled at its cost: as the change order has it.
    const items = demoRows('Items').map((row) => (row.Code === 'ELECTRICIAN' ? { ...row, Allowance: 'yes' } : row))
    const onKinds = takeoffOf({ ...demoRows('Jobs')[3]!, Overhead: 0.1, Markup: 0.15 }, { Items: items, House: [{ Name: 'X', OverheadOn: 'labor', MarkupOn: 'material, labor' }] })
    const electrician = onKinds.lines.find(({ code }) => code === 'ELECTRICIAN')!
    expect(electrician.rule.kind).toBe('subcontract')
    expect(words(sheetOf(onKinds, 'quote'))).toContain(` at $${electrician.price!.toFixed(2)} before tax`)
    const other = takeoff.options().find(({ name }) => name === 'one shorter tank')!.takeoff!
    expect(words(sheetOf(takeoff, 'quote'))).toContain(`Instead, one shorter tank: $${(takeoff.total - other.total).toFixed(2)} less, tax included.`)
    expect(words(sheetOf(takeoff, 'quote'))).not.toContain('larger tanks')
    const stopped = sheetOf(takeoffOf({ ...demoRows('Jobs')[3]!, TestVacuum_inHg: 9 }), 'quote')
    expect(words(stopped)).not.toMatch(/settled by|Instead/)
  })
  it('has no price while a stop stands, on the sheet as it stands and in its formulas', () => {
    const takeoff = takeoffOf({ ...demoRows('Jobs')[3]!, TestVacuum_inHg: 9 })
    expect(takeoff.design.verdict('VacuumVerdict')).toBe('stop')
    const quote = sheetOf(takeoff, 'quote')
    expect(labelled(quote, 'Price, $').value).toBe('no price')
    expect(numbers(quote, 4)).toEqual([])
    expect(labelled(quote, 'Price, $').formula).toMatch(
      /^IF\(\(SUMPRODUCT\(\('Design [^']+'!\$D\$\d+:\$D\$\d+="stop"\)\*1\)\+'Design [^']+'!\$D\$\d+\+'Takeoff [^']+'!\$G\$\d+-\(.+\)\)>0,"no price",/,
    )
    expect(words(quote)).toContain('a licensed person enters name, licence number and reason')
  })
  it('an accepted stop and what the office wrote come back with the next making', async () => {
    const source = sourceOf(makeTemplate(officeWith({ Jobs: [{ ...demoRows('Jobs')[3]!, TestVacuum_inHg: 9 }] }), made), 'O.xlsx')
    const make = async (from: typeof source) => ({ kept: keptIn(from.workbook, 'Wicket Mill'), ...(await makeJobs(from, ['Wicket Mill'])) })
    const first = await make(source)
    // What stands beside a stop that nobody answered is nobody’s entry, and no order goes out.
    expect(keptIn(sourceOf(first.bytes, 'O.xlsx').workbook, 'Wicket Mill').crew.cells).toEqual({})
    expect(words(sheetOf(first.takeoff, 'order'))).toContain('Not to be ordered before the quote has a price')
    expect(words(sheetOf(first.takeoff, 'crew'))).toContain('DO NOT START')
    const workbook = await inExceljs(first.bytes)
    const [quote, order] = [workbook.getWorksheet('Quote Wicket Mill')!, workbook.getWorksheet('Order Wicket Mill')!]
    const write = (sheet: typeof quote, code: string, column: number, text: string) =>
      sheet.eachRow((row) => {
        if (String(row.getCell(2).value) === code) row.getCell(column).value = text
      })
    for (const { name, verdict } of first.takeoff.design.verdicts()) if (verdict === 'stop') write(quote, codeOf(name), 4, 'R. Voss, PE 1234, maker’s letter')
    write(quote, '2', 4, 'I. Marrow, Alder Reach')
    write(order, 'CLAMP', 6, 'ordered 12 May')
    const again = await make(sourceOf(await savedBy(workbook), 'O.xlsx'))
    expect(again.kept.problems).toEqual([])
    expect(again.kept.crew.cells).toMatchObject({
      'Q 2': { done: 'I. Marrow, Alder Reach' },
      'O CLAMP': { done: 'ordered 12 May' },
      'Q Vacuum': { done: 'R. Voss, PE 1234, maker’s letter' },
    })
    expect(again.kept.crew.added).toEqual([])
    expect(labelled(sheetOf(again.takeoff, 'quote'), 'Price, $').value).toBe(again.takeoff.total)
    expect(words(sheetOf(again.takeoff, 'order'))).toContain('ordered 12 May')
    expect(words(sheetOf(again.takeoff, 'order'))).not.toContain('Not to be ordered')
    // A licensed person took it on: the crew may begin, and reads how.
    expect(words(sheetOf(again.takeoff, 'crew'))).not.toContain('DO NOT START')
    expect(words(sheetOf(again.takeoff, 'crew'))).toContain('ANSWERED FOR: WORK AS THE ANSWER SAYS')
  })
  it('an alternate without the treatment says what its water is', () => {
    const variant = (Variant: string, Field: string, Value: string) => ({ Job: 'Thistle Brow', Variant, Field, Value, OnQuote: 'yes' })
    const office = { Variants: [variant('no treatment', 'TreatmentLoss_psi', '0'), variant('four tanks', 'TankCount', '4')] }
    const takeoff = takeoffOf(
      demoRows('Jobs').find(({ Job }) => Job === 'Thistle Brow')!,
      office,
    )
    expect(words(sheetOf(takeoff, 'quote'))).toMatch(/Instead, no treatment: \$[\d,.]+ less, tax included\. The water is not drinkable then\./)
    expect(words(sheetOf(takeoff, 'quote'))).toMatch(/Instead, four tanks: \$[\d,.]+ less, tax included\.$/m)
  })
  it('words that put an answer off are none, nor is one that was given for other figures', () => {
    const answered = (done: string, row: object, stands?: string) => {
      const office = readOffice(officeWith({ Jobs: [{ ...demoRows('Jobs')[3]!, ...row }] }))
      const crew = { cells: { 'Q Cover': { done, ...(stands === undefined ? {} : { stands }) } }, added: [] }
      const takeoff = makeTakeoff(office, office.tables.Jobs[0]!, { ...nothingKept, crew })
      return { takeoff, quote: sheetOf(takeoff, 'quote') }
    }
    const engineer = 'R. Voss, PE 1234: maker’s letter of 2 Nov allows 5 ft'
    for (const words_ of [
      'x',
      'ok',
      'no',
      '-',
      'TBD',
      'to be discussed with customer 12',
      'not yet, ask R. Voss, PE 1234 on Monday',
      'R. Voss',
      'R. Voss, PE 12, yes',
      'R. Voss, PE-1234-of-Alder',
      'R. Voss, PE, by the maker’s letter',
      // Figures that are no licence number: a pressure, a day, a room.
      'OK at 8 inHg says the boss',
      'customer says it is ok, 2026-11-12',
      'crew is fine with it, room 214',
      'R. Voss, PE: maker’s letter of 12 Nov 26 allows 5 ft',
      'J. Vale, licensed, whose number nobody wrote down: mail of 2026',
      // Refused, or put off, wherever the word stands.
      'Refused by R. Voss, PE 1234: the lid breaks inward',
      'R. Voss, PE 1234, rejects 5 ft of cover',
      'pending, R. Voss, PE 1234 looks at it on 3 Dec',
      'R. Voss, PE 1234: waiting for the maker’s letter',
      '? who signs this, see mail of 3 Dec',
    ]) {
      const { quote } = answered(words_, { Cover_ft: 4.5, OutfallDrop_ft: 9 })
      expect([words_, labelled(quote, 'Price, $').value]).toEqual([words_, 'no price'])
    }
    // A letter that is looked at, and ballast that something depends on, put nothing off.
    for (const words_ of ['See letter of J. Smith, PE 12345, of 3 May', 'J. Smith, PE 12345 accepts, depending on the ballast'])
      expect([words_, openStops(answered(words_, { Cover_ft: 4.5, OutfallDrop_ft: 9 }).takeoff)]).toEqual([words_, 0])
    const put = answered('pending, J. Smith, PE 12345', { Cover_ft: 4.5, OutfallDrop_ft: 9 }).takeoff
    expect(makingNotes(put, { before: undefined, changes: [] }, made).join()).toMatch(/what is written beside "Cover over the lids" answers for nothing/)
    for (const words_ of ['J. Vale, structural, license no. 88-213: slab drawn', 'J. Vale, registered engineer 4411, maker’s letter', 'J. Vale P.E. 4411 checked the lid himself'])
      expect([words_, openStops(answered(words_, { Cover_ft: 4.5, OutfallDrop_ft: 9 }).takeoff)]).toEqual([words_, 0])
    // Twenty letters, four words and a licence of three digits are enough.
    expect(openStops(answered('R. Voss, PE 123, yes', { Cover_ft: 4.5, OutfallDrop_ft: 9 }).takeoff)).toBe(0)
    const given = answered(engineer, { Cover_ft: 4.5, OutfallDrop_ft: 9 })
    expect(openStops(given.takeoff)).toBe(0)
    expect(words(given.quote)).toContain('ANSWERED FOR, AND IN THIS PRICE')
    expect(words(sheetOf(given.takeoff, 'crew'))).toContain(`Answered for on the quote: ${engineer}`)
    const stands = String(given.quote.cells.find(({ column, value }) => column === 5 && String(value).startsWith('Cover over the lids'))?.value)
    expect(stands).toContain('4.5 ft')
    expect(openStops(answered(engineer, { Cover_ft: 4.5, OutfallDrop_ft: 9 }, stands).takeoff)).toBe(0)
    const deeper = answered(engineer, { Cover_ft: 7, OutfallDrop_ft: 12 }, stands)
    expect(openStops(deeper.takeoff)).toBeGreaterThan(0)
    expect(labelled(deeper.quote, 'Price, $').value).toBe('no price')
    // It stays beside the stop with what it was given for, and counts again where those figures come back.
    expect(words(deeper.quote)).toContain('This answer was given for other figures: it counts again where they come back.')
    expect(words(deeper.quote)).toContain(engineer)
    expect(makingNotes(deeper.takeoff, { before: undefined, changes: [] }, made)).toEqual([
      expect.stringMatching(/^Wicket Mill: the answer to "Cover over the lids" was given for other figures: there is no price on the quote/),
    ])
    const kept = readOffice(officeWith({ Jobs: [{ ...demoRows('Jobs')[3]!, Cover_ft: 4.5, OutfallDrop_ft: 9 }] }))
    const crew = { cells: { 'Q Cover before': { done: engineer, stands } }, added: [] }
    const back = makeTakeoff(kept, kept.tables.Jobs[0]!, { ...nothingKept, crew })
    expect(openStops(back)).toBe(0)
    expect(labelled(sheetOf(back, 'quote'), 'Price, $').value).not.toBe('no price')
  })
})

describe('the order', () => {
  it('has every bought and hired line once, as much as the takeoff orders', () => {
    const takeoff = demoTakeoff('Thistle Brow')
    const order = sheetOf(takeoff, 'order')
    const bought = takeoff.lines.filter(({ rule, order: amount }) => ['material', 'equipment', 'subcontract'].includes(rule.kind) && amount > 0)
    for (const { code, order: amount } of bought) {
      const rows = order.cells.filter(({ column, value }) => column === 2 && value === code)
      expect(rows, code).toHaveLength(1)
      expect(order.cells.find(({ row, column }) => row === rows[0]!.row && column === 4)!.value).toBe(amount)
    }
  })
})
