/** What must agree on the sheets of a job: each with its two sides as a number and as a live formula. */
import { money } from '../../rounding.js'
import type { Line } from '../../takeoff/lines.js'
import { ADDED_SUM, PRICE_SUMS, sumOf } from '../../takeoff/sumWords.js'
import { address } from '../plan.js'
import { CHANGED_SINCE, type JobContext } from '../sheetKind.js'
import { openStops } from '../stopAnswers.js'
import { hasProof, proofSums } from './proofSheet.js'
import { pricedParts, QUOTE_PARTS, QUOTE_PRICE } from './quotePrices.js'
import { LINE_ROWS, sumPlace, takeoffColumns } from './takeoffColumns.js'

/** Sums of cents agree within half of one, counts within a half, all else to the last digits. */
const [HALF_CENT, HALF, SMALL] = [0.005, 0.5, 1e-6]

export interface Check {
  what: string
  unit: string
  within: number
  left: readonly [value: number, formula: string]
  right: readonly [value: number, formula?: string]
}

export function checkList({ takeoff, design, names }: JobContext, sheet: string): Check[] {
  const from = names.from(sheet)
  const sums = [
    ...takeoff.sections.map(({ section, total }) => ({ total, place: from(sumPlace(sumOf(section))) })),
    { total: takeoff.addedTotal, place: from(sumPlace(ADDED_SUM)) },
  ]
  const [cost, overhead, markup, tax, total] = PRICE_SUMS.map((label) => from(sumPlace(label)))
  const none = [0] as const
  const count = (isCounted: (line: Line) => boolean, condition: string): readonly [number, string] => [takeoff.lines.filter(isCounted).length, `SUMPRODUCT(${condition})`]
  const is = (column: keyof typeof takeoffColumns) => `ISNUMBER(${lines(column)})`
  const n = (name: Parameters<typeof design.number>[0]): readonly [number, string] => [design.number(name), from(name)]
  const parts = (['Bed_yd3', 'TanksOutside_yd3', 'RisersInEarth_yd3', 'PumpEndStone_yd3', 'DrainsInPit_yd3', 'Backfill_yd3', 'PitTopsoilBack_yd3'] as const).map(n)
  const quoted = openStops(takeoff) === 0
  return [
    {
      what: 'Sections and lines by hand against the order cost',
      unit: '$',
      within: HALF_CENT,
      left: [money(sums.reduce((sum, one) => sum + one.total, 0)), sums.map(({ place }) => place).join('+')],
      right: [takeoff.orderCost, cost],
    },
    {
      what: 'Amounts of all lines against the order cost',
      unit: '$',
      within: HALF_CENT,
      left: [
        money(takeoff.lines.reduce((sum, { amount }) => sum + amount, takeoff.addedTotal)),
        `SUMPRODUCT((${lines('code')}<>"")*${is('order')},${lines('amount')})+${from(sumPlace(ADDED_SUM))}`,
      ],
      right: [takeoff.orderCost, cost],
    },
    {
      what: 'Order cost, overhead, markup and tax against the total',
      unit: '$',
      within: HALF_CENT,
      left: [money(takeoff.orderCost + takeoff.overhead + takeoff.markup + takeoff.tax), `${cost}+${overhead}+${markup}+${tax}`],
      right: [takeoff.total, total],
    },
    {
      what: 'Prices of the quote against the total; nothing where it has no price',
      unit: '$',
      within: HALF_CENT,
      left: [quoted ? money(pricedParts(takeoff).reduce((sum, { price }) => sum + price, takeoff.tax)) : 0, `IF(ISNUMBER(${from(QUOTE_PRICE)}),SUM(${from(QUOTE_PARTS)}),0)`],
      right: [quoted ? takeoff.total : 0, `IF(ISNUMBER(${from(QUOTE_PRICE)}),${total},0)`],
    },
    {
      what: 'Lines that order less than their quantity',
      unit: 'lines',
      within: HALF,
      left: count(
        ({ override, order, net }) => override === undefined && order < net - SMALL,
        `${is('order')}*${is('net')}*(${lines('yours')}="")*(${lines('order')}<${lines('net')}-${SMALL})`,
      ),
      right: none,
    },
    {
      what: 'Lines that order less than your quantity',
      unit: 'lines',
      within: HALF,
      left: count(({ override, order }) => override !== undefined && order < override - SMALL, `${is('order')}*${is('yours')}*(${lines('order')}<${lines('yours')}-${SMALL})`),
      right: none,
    },
    { what: 'Lines without a price', unit: 'lines', within: HALF, left: count(({ price }) => price === undefined, `${is('order')}*(1-${is('price')})`), right: none },
    {
      what: 'The pit: what is dug against bed, tanks, risers, stone, drains, backfill and topsoil',
      unit: 'yd³',
      within: SMALL,
      left: [...n('Dig_yd3')],
      right: [parts.reduce((sum, [value]) => sum + value, 0), parts.map(([, place]) => place).join('+')],
    },
    { what: 'Inputs, verdicts and figures that have changed since it was made', unit: '', within: HALF, left: [0, from(CHANGED_SINCE)], right: none },
    { what: 'The daily balance is of these figures (1 is yes)', unit: '', within: HALF, left: [...n('RecordAgrees')], right: [1] },
    ...(hasProof(design)
      ? proofSums.map(({ label, record, proof }) => {
          const whole = design.column(record).reduce((sum, value) => sum + value, 0)
          return {
            what: `${label} over the record, against the daily proof`,
            unit: 'gal',
            within: HALF,
            left: [whole, from(proof)] as [number, string],
            right: [whole, `SUM(${from(record)})`] as [number, string],
          }
        })
      : []),
  ]

  /** A column of the takeoff's lines. */
  function lines(column: keyof typeof takeoffColumns): string {
    const [sheetName, from_, to] = /^(.*!)\$[A-Z]+\$(\d+):\$[A-Z]+\$(\d+)$/.exec(from(LINE_ROWS))!.slice(1) as [string, string, string]
    return `${sheetName}${address(Number(from_), takeoffColumns[column])}:${address(Number(to), takeoffColumns[column]).replace(/^.*!/, '')}`
  }
}
