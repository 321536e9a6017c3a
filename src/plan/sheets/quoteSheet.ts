/** The Quote: one page for the customer. What is offered, the price by section, what it rests on, and no cost of ours. */
import { formula } from '../../formula/formula.js'
import { DAY_MS } from '../../days.js'
import { dollars, money } from '../../rounding.js'
import { AS_FOUND, assumable, assumableFields, assumedLabel, NOT_MEASURED } from '../../takeoff/assumed.js'
import { closingCaution } from '../../takeoff/cautions.js'
import { ADDED_SUM, FURTHER_WORK, sumOf, UNCOUNTED } from '../../takeoff/sumWords.js'
import { lineFormula } from '../../takeoff/lineFigures.js'
import type { ItemKind } from '../../takeoff/officeTables.js'
import { type Takeoff } from '../../takeoff/takeoff.js'
import type { Words } from '../../takeoff/template.js'
import { verdictRules, type VerdictName } from '../../takeoff/verdicts.js'
import { laidOut, type Page, type Picture } from '../drawing/picture.js'
import { sectionPicture } from '../drawing/sectionPicture.js'
import { ACCEPTED, acceptance, isEarlierAcceptance, NO_PRICE } from '../acceptance.js'
import { fitsPage, fittedToPage, ROW_POINTS } from '../heights.js'
import { address, SheetDraft, type SheetPlan } from '../plan.js'
import { CHANGED_SINCE, headed, isLong, sheetKind, type JobContext } from '../sheetKind.js'
import { answerFormula, answerTo, codeOf, earlierCode, openStops, QUOTE_PREFIX, stopsOf, stopWords, wantedOf } from '../stopAnswers.js'
import { leftOutWords, liveWords, measureOf } from '../words.js'
import { wordsPlace } from './designSheet.js'
import { linePlace, sumPlace } from './takeoffColumns.js'

const columns = { code: 2, text: 3, done: 4, price: 4, stands: 5 } as const
/** Beside an answer, hidden: what it was given for. */
const quoteHeadings: Readonly<Record<string, string>> = { code: 'Entry', text: 'To be filled in', done: 'Words', stands: 'Answered for' }
const LAST_COLUMN = columns.price

const ANOTHER = '; the price is another now'
const AGAIN = ': make the takeoff again before this is signed'
/** What stands beside a name that was written at another sum. */
const earlierWords = (at: string, now: string): string =>
  at === NO_PRICE
    ? 'Signed while the quote had no price: nothing is accepted by that.'
    : now === NO_PRICE
      ? `Accepted at ${at}: it counts again where the quote has that price.`
      : `Accepted at ${at}, not at this price: what changed since is agreed on the change order.`
/** Cells for the office on every quote: what stands in them comes back. */
const entries: readonly (readonly [code: string, what: string])[] = [
  ['1', 'Our name, address and licence number'],
  ['2', 'For: the customer’s name and address'],
  ['3', 'Good until'],
  ['4', 'Payment'],
  ['5', 'Offered by, date'],
  ['6', 'Accepted by, date'],
]
const CUSTOMER = '2'
const signed: readonly string[] = [ACCEPTED]
/** Entries that the sheet House has the words for. */
const saidByHouse: readonly string[] = ['1', '3', '4']
const isQuoteCode = (code: string): boolean =>
  entries.some(([known]) => known === code) || isEarlierAcceptance(code) || verdictRules.some(({ name }) => [name, codeOf(name), earlierCode(name)].includes(code))
const quoteCodes = ({ design, crew }: Takeoff): string[] => [
  ...Object.keys(crew.cells).filter((code) => code.startsWith(QUOTE_PREFIX) && isEarlierAcceptance(code.slice(QUOTE_PREFIX.length))),
  ...[...entries.map(([code]) => code), ...stopsOf({ design }).flatMap(({ name }) => [name, codeOf(name), earlierCode(name)])].map((code) => `${QUOTE_PREFIX}${code}`),
]

const TREATMENT = 'TREATMENT'
const [STOPS_STAND, STOPS_ANSWERED] = ['NO PRICE WHILE THESE STAND', 'ANSWERED FOR, AND IN THIS PRICE']

/** Names by which the checks find the prices of the sections with the tax, and the price. */
export const QUOTE_PARTS = 'quote parts'
export const QUOTE_PRICE = 'quote price'

/** A sentence of what was built or is offered, where the job buys some codes and leaves out others. */
export interface Part {
  words: Words
  bought?: readonly string[]
  leftOut?: readonly string[]
}
/** The sentences that hold for what this job buys. */
export const partsOf = (list: readonly Part[], { lines }: Pick<Takeoff, 'lines'>): readonly Words[] => {
  const has = (code: string) => lines.some((line) => line.code === code)
  return list.filter(({ bought = [], leftOut = [] }) => bought.every(has) && !leftOut.some(has)).map(({ words }) => words)
}

export const scope: readonly Part[] = [
  {
    words: [
      ['TankCount=1', 'A precast concrete tank holding {Storage_gal}, set on a stone bed in a pit {PitDepth_ft} deep and covered again.'],
      ['TRUE', '{TankCount} precast concrete tanks, together holding {Storage_gal}, set on a stone bed in one pit {PitDepth_ft} deep, connected low and covered again.'],
    ],
  },
  {
    words: [
      ['TankCount=1', 'Rain of {CatchmentArea_ft2} of roof by a buried drain into the tank, and an overflow to the outfall.'],
      ['TRUE', 'Rain of {CatchmentArea_ft2} of roof by a buried drain into the tanks, and an overflow to the outfall.'],
    ],
  },
  {
    words: 'One submersible pump with its switch and pressure tank, {LineLength_ft} of buried water line, and {FeederLength_ft} of power feed with its conduit.',
    bought: ['PUMP', 'PRESSURE-TANK'],
  },
  { words: 'One submersible pump, {LineLength_ft} of buried water line, and {FeederLength_ft} of power feed with its conduit.', bought: ['PUMP'], leftOut: ['PRESSURE-TANK'] },
  { words: '{LineLength_ft} of buried water line and {FeederLength_ft} of power feed with its conduit.', leftOut: ['PUMP'] },
  {
    words: [
      ['RecordYears>0', 'By days of rain at {RainStation} about {Reliability%:0} of the water asked for ({DailyUse_gal_per_day}); a dry year gives less.'],
      [
        'TRUE',
        'By mean months of rain at {RainStation} about {SizingShare%:0} of the water asked for ({DailyUse_gal_per_day}), {ReliabilityLow%:0} to {ReliabilityHigh%:0} as it falls; a dry year gives less.',
      ],
    ],
  },
  {
    words: 'Every tank tested under a vacuum of {TestVacuum_inHg} before it is covered; line, pump and switch tested, the record handed over.',
    bought: ['VACUUM', 'PUMP'],
  },
  { words: 'Every tank tested under a vacuum of {TestVacuum_inHg} before it is covered; the line tested, the record handed over.', bought: ['VACUUM'], leftOut: ['PUMP'] },
  { words: 'A treatment set of filters and lamp at the house; tested and kept up, or the water is not for drinking.', bought: [TREATMENT] },
]
/** As large as a picture may be beside so many rows: its labels stay off the rule below them. */
function besideRows(picture: Picture, rows: number): Page {
  const page = { size: 9, width: 262 }
  const heights = [76, 70, 64, 58, 52, 46]
  const mostHeight = heights.find((most) => laidOut(picture, { ...page, mostHeight: most, withBar: true }).height <= rows * ROW_POINTS) ?? heights.at(-1)!
  return { ...page, mostHeight }
}
/** What the office settles by itself: no customer can say how wide a cable is. */
const ofOffice: readonly VerdictName[] = ['FillVerdict', 'WeightVerdict', 'LiftVerdict', 'StartDropVerdict', 'PressureTankVerdict', 'RunsVerdict']
const isTreated = ({ lines }: Takeoff) => lines.some(({ code }) => code === TREATMENT)
/** What is set inside the house, by the codes that the job buys. */
const houseParts: readonly (readonly [code: string, words: string])[] = [
  ['PRESSURE-TANK', 'pressure tank with its valves'],
  ['REDUCER', 'reducing valve'],
  [TREATMENT, 'treatment set'],
  ['BACKFLOW', 'backflow preventer'],
  ['AIR-GAP', 'air-gap fill'],
  ['HOUSE-VALVE', 'house valve'],
]
function inHouse({ lines }: Takeoff): string {
  const found = houseParts.filter(([code]) => lines.some((line) => line.code === code)).map(([, words]) => words)
  return ['the end of the line', ...found].join(', ')
}
const notInPrice = (takeoff: Takeoff): readonly string[] => [
  `${takeoff.design.single('SoilClass') === 'rock' ? 'Buried things that nobody showed' : 'Rock, buried things that nobody showed'}, bad ground, water in the pit beyond what is listed.`,
  `Work inside the house but ${inHouse(takeoff)}${isTreated(takeoff) ? '' : '; treatment for drinking: the stored water is not drinkable without it'}.`,
  'Roads, trees and lawns beyond the trench and pit; delay by weather or by an authority.',
]

export const quote = sheetKind({
  kind: 'quote',
  place: 20,
  prefix: 'Quote',
  lists: [
    {
      prefix: QUOTE_PREFIX,
      onlyEntries: true,
      headings: quoteHeadings,
      entries: ['done', 'stands'],
      beside: ['stands'],
      isCode: isQuoteCode,
      isOurWord: (_, key) => key === 'text',
    },
  ],
  codes: quoteCodes,
  plan: (job, sheet) => {
    // One page: where much stands on it, the empty rows between its parts go before it takes a second one, then all but the first sentence of what it rests on.
    const forms = [
      { hasGaps: true, isShort: false },
      { hasGaps: false, isShort: false },
      { hasGaps: false, isShort: true },
    ] as const
    // One after the other: the names of the last one laid out are those that Checks points to. Where none does it in one, nothing is left unsaid for it.
    let close = quoteSheet(job, sheet, forms[0])
    for (const form of [...forms.slice(1), forms[1]]) if (!fitsPage(close)) close = quoteSheet(job, sheet, form)
    const beforeBreak = { ...close, cells: close.cells.filter(({ row }) => row < close.breakBefore!) }
    return fitsPage(close) || !fitsPage(beforeBreak) ? { ...close, breakBefore: undefined } : close
  },
})

function quoteSheet({ takeoff, names, heading, made, earlier }: JobContext, sheet: string, { hasGaps, isShort }: { hasGaps: boolean; isShort: boolean }): SheetPlan {
  const { design, crew, house } = takeoff
  const from = names.from(sheet)
  const draft = new SheetDraft()
  headed(draft, { heading, names }, sheet, 'Quote', from(sumPlace(UNCOUNTED)))
  draft.letterhead(LAST_COLUMN, house.head)
  const stops = stopsOf(takeoff)
  const open = openStops(takeoff)
  const customer = String(crew.cells[`${QUOTE_PREFIX}${CUSTOMER}`]?.done ?? '')
  if (customer) {
    draft.put(columns.code, 'text', `For ${customer}`)
    draft.next()
  }
  section('What is offered')
  // A long title is cut beside the firm's name.
  if (isLong(heading)) sentence(`Site: ${String(design.single('Site'))}.`)
  for (const words of partsOf(scope, takeoff)) sentence(words)
  gap()
  const stopped = prices()
  settledLater(stopped)
  restsOn()
  // Should it take a second page, what is signed stands there with what is not in the price, and the price itself.
  const breakBefore = draft.row
  section('Not in this price, and terms')
  for (const words of notInPrice(takeoff)) sentence(words)
  if (takeoff.without.length) sentence(`Left out by agreement: ${leftOutWords(takeoff)}.`)
  terms()
  filledIn()
  draft.put(columns.code, 'faint', closingCaution)

  function gap(): void {
    if (hasGaps) draft.next()
  }

  function section(text: string): void {
    draft.section(LAST_COLUMN, text.toUpperCase())
  }

  /** A section whose title follows what stands below it. */
  function liveSection(row: number, title: string, text: string): void {
    for (let column = columns.code; column <= LAST_COLUMN; column++)
      draft.put(column, 'section', column === columns.code ? title : null, { row, ...(column === columns.code ? { formula: text } : {}) })
  }

  function headings(...keys: readonly (keyof typeof columns & string)[]): void {
    for (const key of keys) draft.put(columns[key], 'heading', quoteHeadings[key]!)
    draft.next()
  }

  function live(words: Words): { formula?: string } {
    return liveWords(words, from)
  }
  function sentence(words: Words): void {
    draft.put(columns.text, 'wrapped', design.words(words), live(words))
    draft.next()
  }

  /** The price by section, overhead, markup and all spread over them; the last one takes what rounding leaves. No price while a stop stands. */
  function prices(): string {
    section('Price')
    const net = money(takeoff.total - takeoff.tax)
    const parts = [
      ...takeoff.sections.map(({ section: label, total }) => ({ label: label as string, sum: sumPlace(sumOf(label)), total })),
      ...(takeoff.addedTotal ? [{ label: FURTHER_WORK[takeoff.addedTotal < 0 ? 1 : 0], sum: sumPlace(ADDED_SUM), total: takeoff.addedTotal }] : []),
    ].filter(({ total }) => total !== 0)
    const [whole, tax, cost] = ['Total', 'Tax', 'Order cost'].map((label) => from(sumPlace(label))) as [string, string, string]
    // Filled in when the stops below have their rows.
    const cells: ((stopped: string) => void)[] = []
    const first = draft.row
    // Beside the names of the sections there is room for it.
    const picture = sectionPicture(design, measureOf(design))
    draft.drawings.push({ picture, row: first, column: columns.text, offset: 125, page: besideRows(picture, parts.length) })
    let spread = 0
    parts.forEach(({ label, sum, total }, at) => {
      const row = draft.row
      const isLast = at === parts.length - 1
      const price = isLast ? money(net - spread) : money(takeoff.orderCost ? (total * net) / takeoff.orderCost : 0)
      spread = money(spread + price)
      const text = isLast
        ? `${whole}-${tax}${at ? `-SUM(${address(first, columns.price)}:${address(row - 1, columns.price)})` : ''}`
        : `IF(${cost}=0,0,ROUND(${from(sum)}*(${whole}-${tax})/${cost},2))`
      draft.put(columns.text, 'text', label)
      put(row, 'number', price, text)
      draft.next()
    })
    draft.put(columns.text, 'subtotalLabel', 'Tax')
    put(draft.row, 'subtotal', takeoff.tax, tax)
    draft.next()
    names.set(QUOTE_PARTS, sheet, `${address(first, columns.price)}:${address(draft.row - 1, columns.price)}`)
    names.set(QUOTE_PRICE, sheet, address(draft.row, columns.price))
    draft.put(columns.text, 'totalLabel', 'Price, $')
    put(draft.row, 'total', takeoff.total, whole)
    draft.next()
    const stopped = stopRows()
    for (const cell of cells) cell(stopped)
    return stopped

    function put(row: number, role: 'number' | 'subtotal' | 'total', value: number, text: string): void {
      cells.push((stopped) => draft.put(columns.price, role, open ? 'no price' : value, { row, format: 2, formula: `IF(${stopped}>0,"no price",${text})` }))
    }
  }

  /** Allowances: what a unit costs the customer, the overhead and markup in it that lie on its kind, as the change order has them when it is settled. Alternates that the office offers: their difference in price, as it was when this was made. */
  function settledLater(stopped: string): void {
    const lines = takeoff.orderCost ? takeoff.lines.filter(({ rule, order }) => rule.isAllowance && order > 0) : []
    // One that stops where this job stops is offered as soon as that is answered; one that costs the same is no other choice.
    const isAnswered = (other: Takeoff) =>
      stopsOf(other).every((stop) => answerTo({ crew }, stop).isGiven || stops.some((own) => own.name === stop.name && stopWords(own) === stopWords(stop)))
    const offered = takeoff
      .options()
      .flatMap(({ name, isOnQuote, takeoff: other }) =>
        isOnQuote && other && isAnswered(other) ? [{ name, more: money(other.total - takeoff.total), isUntreated: isTreated(takeoff) && !isTreated(other) }] : [],
      )
      .filter(({ more }) => more !== 0)
    if (!lines.length && !offered.length) return
    const title = [...(lines.length ? ['Allowances'] : []), ...(offered.length ? ['Alternates'] : [])].join(' and ').toUpperCase()
    liveSection(draft.row, open ? '' : title, `IF(${stopped}>0,"","${title}")`)
    draft.next()
    const on = (kinds: readonly ItemKind[], kind: ItemKind, name: 'Overhead' | 'Markup') => (kinds.includes(kind) ? `+${from(name)}` : '')
    for (const { code, description, order, rule, price } of lines) {
      const unit_usd = money((price ?? 0) * takeoff.shareBeforeTax(rule.kind))
      const share = `(1${on(house.overheadOn, rule.kind, 'Overhead')}${on(house.markupOn, rule.kind, 'Markup')})`
      const [words, count, unit, price_, listed] = (['description', 'order', 'unit', 'price', 'listed'] as const).map((column) => from(linePlace(code, column))) as [
        string,
        string,
        string,
        string,
        string,
      ]
      const each = lineFormula('price', (name) => (name === 'Price' ? price_ : listed))
      const live = `${words}&": "&${count}&" at $"&TEXT(ROUND(${each}*${share},2),"#,##0.00")&" a "&${unit}&" before tax, settled by what it comes to."`
      const text = `${description}: ${order} at ${dollars(unit_usd)} a ${rule.unit} before tax, settled by what it comes to.`
      draft.put(columns.text, 'wrapped', open ? '' : text, { formula: `IF(${stopped}>0,"",${live})` })
      draft.next()
    }
    for (const { name, more, isUntreated } of offered) {
      const text = `Instead, ${name}: ${dollars(Math.abs(more))} ${more < 0 ? 'less' : 'more'}, tax included.${isUntreated ? ' The water is not drinkable then.' : ''}`
      draft.put(columns.text, 'wrapped', open ? '' : text, { formula: `IF(${stopped}>0,"","${text.replace(/"/g, '""')}")` })
      draft.next()
    }
    gap()
  }

  /** Stops that nobody has answered for: there is no price while one stands. Answers the formula that counts them. */
  function stopRows(): string {
    const all = verdictRules.map(({ name }) => from(name))
    // Verdicts stand together on the Design sheet, so one count does for all.
    const count = `${countOf(all)}+${from(CHANGED_SINCE)}+${from(sumPlace(UNCOUNTED))}`
    if (!stops.length) return count
    const top = draft.row
    draft.next()
    headings('code', 'text', 'done', 'stands')
    const accepted = stops.map((stop) => {
      const { name, label, rule } = stop
      const touchesLife = rule.touchesLife ?? false
      const { said, isGiven, earlier } = answerTo(takeoff, stop)
      const words = stopWords(stop)
      const isAnswered = answerFormula(address(draft.row, columns.done), touchesLife)
      draft.put(columns.code, 'faintWrapped', codeOf(name), { format: 'text' })
      draft.put(columns.text, 'wrapped', isGiven ? words : `${words} ${wantedOf(touchesLife)}`, {
        formula: `"${label}: "&${formula(rule.wordsFormula).render(from)}&IF(${isAnswered}=1,""," ${wantedOf(touchesLife)}")`,
      })
      draft.put(columns.done, 'entry', said === '' ? null : said, { format: 'text' })
      draft.put(columns.stands, 'faint', words, { format: 'text' })
      const [text, stands] = [columns.text, columns.stands].map((column) => address(draft.row, column)) as [string, string]
      draft.next()
      if (earlier) {
        draft.put(columns.code, 'faintWrapped', earlierCode(name), { format: 'text' })
        draft.put(columns.text, 'faintWrapped', 'This answer was given for other figures: it counts again where they come back.')
        draft.put(columns.done, 'entry', earlier.said, { format: 'text' })
        draft.put(columns.stands, 'faint', earlier.stands, { format: 'text' })
        draft.next()
      }
      return `(${from(name)}="stop")*(${text}=${stands})*${isAnswered}`
    })
    gap()
    const left = `(${count}-(${accepted.join('+')}))`
    liveSection(top, open ? STOPS_STAND : STOPS_ANSWERED, `IF(${left}>0,"${STOPS_STAND}","${STOPS_ANSWERED}")`)
    return left
  }

  function countOf(cells: readonly string[]): string {
    const rows = cells.map((cell) => Number(/(\d+)$/.exec(cell)![1]))
    const first = cells[rows.indexOf(Math.min(...rows))]!
    const last = cells[rows.indexOf(Math.max(...rows))]!
    return `SUMPRODUCT((${first}:${last.slice(last.lastIndexOf('!') + 1)}="stop")*1)`
  }

  /** Everything that was found neither good nor bad: the price holds as far as it holds. What nobody has measured yet is one sentence. */
  function restsOn(): void {
    const checks = design.verdicts().filter(({ verdict, name }) => verdict === 'check' && !ofOffice.includes(name))
    if (!checks.length) return
    section('This price rests on')
    for (const { label, rule, name } of checks.filter((one) => design.bareVerdict(one.name) === 'check')) {
      const all = design.text(rule.saysFormula)
      const [first] = all.split(/(?<=\.) /)
      const words = from(wordsPlace(name))
      const live = isShort ? `LEFT(${words},FIND(". ",${words}&". "))` : formula(rule.saysFormula).render(from)
      draft.put(columns.text, 'wrapped', `${label}: ${isShort ? first : all}`, { formula: `IF(${from(name)}="pass","","${label}: "&${live})` })
      draft.next()
    }
    const fields = assumableFields.filter((field) => checks.some(({ rule }) => rule.assumed.includes(field)) && design.number(assumable[field]) === 1)
    if (fields.length) {
      const flags = fields.map((field) => from(assumable[field]))
      const list = fields.map((field, at) => `IF(${flags[at]}=1,"${assumedLabel(field)}; ","")`).join('&')
      draft.put(columns.text, 'wrapped', `${NOT_MEASURED}${fields.map((field) => `${assumedLabel(field)}; `).join('')}${AS_FOUND}`, {
        formula: `IF(${flags.join('+')}=0,"","${NOT_MEASURED}"&${list}&"${AS_FOUND}")`,
      })
      draft.next()
    }
    gap()
  }

  /** What the sheet House says of every quote. */
  function terms(): void {
    if (!house.head.length) return
    const from_ = String(design.single('Date') || made.date)
    const until = new Date(Date.parse(`${from_}T00:00:00Z`) + house.validFor_day * DAY_MS).toISOString().slice(0, 10)
    sentence(`This quote of ${from_} holds until ${until}.${house.payment ? ` Payment: ${house.payment}.` : ''}`)
  }

  function filledIn(): void {
    headings('code', 'text', 'done', 'stands')
    const accepted = acceptance(takeoff, earlier.before)
    for (const [code, what] of entries) {
      if (house.head.length && saidByHouse.includes(code) && crew.cells[`${QUOTE_PREFIX}${code}`] === undefined) continue
      draft.put(columns.code, 'faint', code, { format: 'text' })
      if (code === ACCEPTED) acceptedAt(what, accepted.at)
      else draft.put(columns.text, 'text', what)
      const said = code === ACCEPTED ? accepted.done : crew.cells[`${QUOTE_PREFIX}${code}`]?.done
      // Where the customer signs, the row is as high as a name.
      draft.put(columns.done, signed.includes(code) ? 'siteEntry' : 'entry', said ?? null, { format: 'text' })
      draft.next()
    }
    for (const { code, at, done } of accepted.earlier) {
      draft.put(columns.code, 'faintWrapped', code, { format: 'text' })
      draft.put(columns.text, 'faintWrapped', earlierWords(at, accepted.at))
      draft.put(columns.done, 'entry', done, { format: 'text' })
      draft.next()
    }
    gap()
  }

  /** The customer accepts a sum: the sheet keeps it beside the name, and says so where the price moves under it. */
  function acceptedAt(what: string, at: string): void {
    const [done, stands] = [columns.done, columns.stands].map((column) => address(draft.row, column)) as [string, string]
    const price = from(QUOTE_PRICE)
    const live = `IF(ISNUMBER(${price}),"$"&TEXT(${price},"#,##0.00"),"${NO_PRICE}")`
    draft.put(columns.text, 'text', open ? what : `${what}, at ${at}`, {
      // What is printed while the price has moved has no sum that could be signed: the sheet would keep the one that it was made with.
      formula: `"${what}"&IF(${stands}=${live},IF(ISNUMBER(${price}),", at "&${live},""),IF(${done}="","${ANOTHER}${AGAIN}",", at "&${stands}&"${ANOTHER}"))`,
    })
    draft.put(columns.stands, 'faint', at, { format: 'text' })
  }

  return fittedToPage(
    draft.sheet(sheet, {
      kind: 'quote',
      widths: [1, stops.length ? 11 : 8, stops.length ? 74 : 77, 24, 18],
      headingRow: 3,
      landscape: false,
      footer: design.name,
      breakBefore,
      hiddenColumn: columns.stands,
      print: { lastColumn: LAST_COLUMN },
    }),
  )
}
