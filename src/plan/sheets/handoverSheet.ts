/** The Handover: what was built, what to do when, what it is made of, and whom to call. For the owner. */
import { closingCaution } from '../../takeoff/cautions.js'
import { CABLE } from '../../takeoff/chosenItems.js'
import { careOf, careTasks } from '../../takeoff/careTasks.js'
import { monthNames } from '../../takeoff/officeTables.js'
import type { Words } from '../../takeoff/template.js'
import { stopsOfRecord } from '../../takeoff/testRecord.js'
import { planPicture } from '../drawing/planPicture.js'
import { sectionPicture } from '../drawing/sectionPicture.js'
import { fittedToPage } from '../heights.js'
import { SheetDraft, type SheetPlan } from '../plan.js'
import { headed, isLong, sheetKind, type JobContext } from '../sheetKind.js'
import { leftOutWords, liveWords, measureOf, SET_BY_OTHERS } from '../words.js'
import { LINE, partsOf, type Part } from './quoteWords.js'
import { TEST_STOPS } from './testSheet.js'

const PREFIX = 'H '
const columns = { code: 2, text: 3, when: 4, done: 5 } as const
const headings: Readonly<Record<string, string>> = { code: 'Plan', text: 'What to do', when: 'Months', done: 'Done, by whom' }
const measured: readonly (readonly [code: string, what: string])[] = [
  ['m1', 'Lids below the ground, as measured'],
  ['m2', 'Water line below the ground at the tanks, as measured'],
  ['m3', 'From a fixed corner of the house to the riser nearest it'],
  ['m4', 'Handed over by, date'],
  ['m5', 'Taken over by, date'],
]
const isCode = (code: string): boolean => careTasks.some((task) => task.code === code) || measured.some(([known]) => known === code)

export const built: readonly Part[] = [
  {
    words: [
      ['TankCount=1', 'One precast concrete tank {TankModel} holding {Storage_gal}, its lid {Cover_ft} under the ground.'],
      ['', '{TankCount} precast concrete tanks, {Models}, together holding {Storage_gal}, tied low; their lids lie {Cover_ft} under the ground.'],
    ],
    kept: ['TANK'],
  },
  {
    words: [
      ['TankCount=1', 'Pump {PumpModel} in the tank, switched on at {CutIn_psi} and off at {CutOut_psi}; pressure tank {PressureTankModel}.'],
      ['', 'Pump {PumpModel} in the tank nearest the house, switched on at {CutIn_psi} and off at {CutOut_psi}; pressure tank {PressureTankModel}.'],
    ],
    bought: ['PUMP', 'PRESSURE-TANK'],
  },
  { words: 'Pump {PumpModel} in the tank nearest the house; switch and pressure tank are not of this job.', bought: ['PUMP'], leftOut: ['PRESSURE-TANK'] },
  {
    words: [
      [
        'ByGravity=1',
        'Water line {WaterLineSize} in, {LineLength_ft} of it over a run of {WaterLineRun_ft}, falling from {LineCentre_ft:2} down at the tanks, {TrenchDepth_in} at the least.',
      ],
      ['', 'Water line {WaterLineSize} in, {LineLength_ft} of it over a run of {WaterLineRun_ft}, {TrenchDepth_in} down.'],
    ],
    kept: [LINE],
    out: [CABLE],
  },
  {
    words:
      'Water line {WaterLineSize} in, {LineLength_ft} of it over a run of {WaterLineRun_ft}, {TrenchDepth_in} down; power feed {Cable} AWG beside it, on a breaker of {Breaker_A} at the most.',
    kept: [LINE, CABLE],
  },
  { words: 'Power feed {Cable} AWG, {TrenchDepth_in} down, on a breaker of {Breaker_A} at the most.', kept: [CABLE], out: [LINE] },
  { words: 'Inlet drains of {DrainSize_in} from the roof, overflow {OverflowRun_ft} to its outfall.', kept: ['DRAIN-{'] },
]
const BELOW = 'HouseBelow_ft>0'
const IS_BELOW = 'The house lies below the water: an open tap or a broken pipe empties the tanks. The valve at the house is closed whenever nobody is there.'
const POWER_OFF = 'Pump and cable are worked on with the breaker off and locked, by a licensed electrician.'
const safety: readonly string[] = [
  'The stored water is not drinkable without treatment; outlets that carry it stay marked.',
  'Nobody climbs into a tank: air can be missing, and a rescuer dies as the first did. Call the firm.',
  'Lids stay closed and locked; nothing drives over the tanks but what the maker allows.',
  'Never join this line to a public supply without an air gap or a tested backflow preventer.',
  POWER_OFF,
]
/** Lines of the takeoff that an owner may have to name again. */
const parts: readonly string[] = [
  'PUMP',
  'CHECK-VALVE',
  'PRESSURE-TANK',
  'RELIEF',
  'CONTROL',
  'FLOAT',
  'FILTER',
  'WASHER',
  'FLAP',
  'VENT',
  'TREATMENT',
  'BACKFLOW',
  'AIR-GAP',
  'REDUCER',
  'SIPHON-BREAK',
  'HOUSE-VALVE',
  'RISER-LID',
]

export const handover = sheetKind({
  kind: 'handover',
  place: 65,
  prefix: 'Handover',
  lists: [{ prefix: PREFIX, onlyEntries: true, headings, entries: ['done'], isCode, isOurWord: (_, key) => key !== 'done' }],
  codes: ({ design }) => [...careOf(design).map(({ code }) => code), ...measured.map(([code]) => code)].map((code) => `${PREFIX}${code}`),
  plan: handoverSheet,
})

function handoverSheet({ takeoff, design, names, heading }: JobContext, sheet: string): SheetPlan {
  const draft = new SheetDraft()
  const measure = measureOf(design)
  const live = (words: Words) => liveWords(words, names.from(sheet))
  headed(draft, { heading, names }, sheet, 'Handover: what was built, and its care')
  draft.letterhead(columns.done, takeoff.house.head)
  section('What was built')
  if (isLong(heading)) sentence(`Site: ${String(design.single('Site'))}.`)
  for (const words of partsOf(built, takeoff)) sentence(words)
  draft.draw(
    [columns.code, sectionPicture(design, measure), { size: 9, width: 320, mostHeight: 90 }],
    [columns.when, planPicture(design, measure), { size: 9, width: 180, mostHeight: 90 }],
  )
  section('For your safety')
  for (const words of safety) if (words !== POWER_OFF || design.number('ByGravity') === 0) sentence(words)
  if (design.holds(BELOW)) sentence(IS_BELOW)
  draft.next()
  // What is done, written and signed stands on one page.
  const breakBefore = draft.row
  list(
    'What to do when',
    careOf(design).map(({ code, task, months }) => ({ code, words: task, when: inMonths(months) })),
  )
  draft.next()
  section('Parts')
  // What comes by the foot, as the cable of the float, is no part.
  const inStock = takeoff.lines.filter(({ code, rule }) => rule.unit !== 'ft' && parts.some((part) => code === part || code.startsWith(`${part}-`)))
  sentence(inStock.map(({ description, order }) => (order === 1 ? description : `${order} × ${description}`)).join('; ') || 'As on the takeoff.')
  if (takeoff.leftOut.length) sentence(`${SET_BY_OTHERS}${leftOutWords(takeoff)}.`)
  draft.next()
  const failed = stopsOfRecord(takeoff).length
  const said = (count: string | number) => `Lines of the test record that say stop, and were not passed since: ${count}. Hand over only what was mended and tested again.`
  const count = names.from(sheet)(TEST_STOPS)
  draft.put(columns.text, 'caution', failed ? said(failed) : '', { formula: `IF(${count}=0,"","${said(`"&${count}&"`)}")` })
  draft.next()
  list(
    `Measured and signed, under “${headings.done}”`,
    measured.map(([code, words]) => ({ code, words, when: '' })),
    'siteEntry',
  )
  draft.put(columns.text, 'faintWrapped', takeoff.house.head.length ? `Call: ${takeoff.house.head.join(', ')}.` : 'Call the firm that set the tanks.')
  draft.next()
  draft.put(columns.code, 'faint', closingCaution)

  function section(text: string): void {
    draft.section(columns.done, text.toUpperCase())
  }
  function sentence(words: Words): void {
    draft.put(columns.text, 'wrapped', design.words(words), live(words))
    draft.next()
  }
  function list(title: string, rows: readonly { code: string; words: Words; when: string }[], role: 'entry' | 'siteEntry' = 'entry'): void {
    section(title)
    for (const [key, column] of Object.entries(columns)) draft.put(column, 'heading', headings[key]!)
    draft.next()
    for (const { code, words, when } of rows) {
      draft.put(columns.code, 'faint', code, { format: 'text' })
      draft.put(columns.text, 'wrapped', design.words(words), live(words))
      draft.put(columns.when, 'faintWrapped', when || null)
      draft.put(columns.done, role, takeoff.crew.cells[`${PREFIX}${code}`]?.done ?? null, { format: 'text' })
      draft.next()
    }
  }

  return fittedToPage(
    draft.sheet(sheet, {
      kind: 'handover',
      widths: [1, 6, 62, 14, 24],
      headingRow: 3,
      landscape: false,
      footer: design.name,
      paper: takeoff.house.paper,
      breakBefore,
    }),
  )
}

const inMonths = (months: readonly number[]): string =>
  months.length === 12 ? 'every month' : months.length ? months.map((month) => monthNames[month - 1]).join(', ') : 'when needed'
