/** The Site list: what nobody has said yet, why it matters, and room to write it. What is found goes into the row of Jobs. */
import { assumable, assumableFields } from '../../takeoff/assumed.js'
import type { Design } from '../../takeoff/design.js'
import { jobFields, type JobFieldName } from '../../takeoff/officeTables.js'
import { SITE_PREFIX } from '../../takeoff/jobProblems.js'
import { verdictRules } from '../../takeoff/verdicts.js'
import { symbolOf } from '../../units.js'
import { SheetDraft, TITLE_ROWS, type SheetPlan } from '../plan.js'
import { headed, sheetKind, type JobContext } from '../sheetKind.js'

const columns = { code: 2, text: 3, taken: 4, unit: 5, done: 6 } as const
const headings: Readonly<Record<string, string>> = { code: 'Column of Jobs', text: 'What to find out, and why', taken: 'Taken so far', unit: 'Unit', done: 'Found on site' }
/** What a look at the site, or a word with its owner, can tell; every other default is the office's choice. */
const ofSite: readonly JobFieldName[] = [
  ...assumableFields,
  'RoofSurface',
  'UsePerPerson_gal_per_day',
  'OutdoorUse_gal_per_day',
  'DownspoutRise_ft',
  'Cover_ft',
  'PitDrained',
  'Traffic',
  'BearingAllowed_psf',
  'Altitude_ft',
  'Voltage_V',
  'SupplyPhases',
  'Backflow',
  'HouseSet',
  'TreatmentLoss_psi',
]

/** What nobody has to find out where no pump is set. */
const ofFeed: readonly JobFieldName[] = ['PowerRun_ft', 'Voltage_V', 'SupplyPhases']

const emptyFields = (design: Design): readonly JobFieldName[] => {
  const left = (Object.keys(jobFields) as JobFieldName[]).filter(
    (name) => design.origin(name) === 'default' && design.job.defaulted.has(name) && ofSite.includes(name) && !(design.number('ByGravity') === 1 && ofFeed.includes(name)),
  )
  // What no verdict passes without comes first.
  return [...left].sort((one, other) => Number(!Object.hasOwn(assumable, one)) - Number(!Object.hasOwn(assumable, other)))
}

export const site = sheetKind({
  kind: 'site',
  place: 45,
  prefix: 'Site',
  lists: [{ prefix: SITE_PREFIX, onlyEntries: true, headings, entries: ['done'], isCode: (code) => Object.hasOwn(jobFields, code), isOurWord: (_, key) => key !== 'done' }],
  codes: () => Object.keys(jobFields).map((name) => `${SITE_PREFIX}${name}`),
  plan: siteSheet,
})

/** Verdicts that do not pass without a figure; one that passes in this job all the same asks for nothing. */
const restOn = (passing: readonly string[], name: JobFieldName): string[] =>
  verdictRules
    .filter((rule) => Object.hasOwn(assumable, name) && rule.formula.includes(assumable[name as (typeof assumableFields)[number]]) && !passing.includes(rule.name))
    .map(({ label }) => label.toLowerCase())

function siteSheet({ takeoff, design, names, heading }: JobContext, sheet: string): SheetPlan {
  const draft = new SheetDraft()
  headed(draft, { heading, names }, sheet, 'Site: what is still assumed, and room to write what is found')
  draft.letterhead(columns.done, takeoff.house.head)
  draft.next()
  for (const [key, column] of Object.entries(columns)) draft.put(column, key === 'taken' ? 'headingRight' : 'heading', headings[key]!)
  draft.next()
  const fields = emptyFields(design)
  const passing = design.verdicts().flatMap(({ name, verdict }) => (verdict === 'pass' ? [name] : []))
  const written = (Object.keys(jobFields) as JobFieldName[]).filter((name) => takeoff.crew.cells[`${SITE_PREFIX}${name}`] !== undefined && !fields.includes(name))
  for (const name of [...fields, ...written]) {
    const verdicts = restOn(passing, name)
    const value = design.singleOf(name)
    const { label, help } = jobFields[name]
    const isUnknown = name === 'GroundwaterDepth_ft' && design.number('GroundwaterAssumed') === 1
    draft.put(columns.code, 'faintWrapped', name, { format: 'text' })
    draft.put(columns.text, 'site', `${label}. ${help}${verdicts.length ? ` Does not pass without it: ${verdicts.join(', ')}.` : ''}`)
    draft.put(columns.taken, typeof value === 'number' && !isUnknown ? 'number' : 'faintRight', isUnknown ? 'not known' : (value as string | number), {
      format: typeof value !== 'number' ? 'text' : Number.isInteger(value) ? 0 : undefined,
    })
    draft.put(columns.unit, 'unit', symbolOf(name))
    draft.put(columns.done, 'siteEntry', takeoff.crew.cells[`${SITE_PREFIX}${name}`]?.done ?? null, { format: 'text' })
    draft.next()
  }
  if (!fields.length) draft.put(columns.text, 'text', 'Nothing is left open: every figure of the row is given.')
  draft.next()
  draft.put(columns.text, 'faintWrapped', 'Call 811 before digging. Look up for power lines. No entry into a tank, pit or trench to measure: a rod and a tape from above.')
  draft.next()
  draft.put(columns.text, 'faintWrapped', 'What was found goes into the row of Jobs, under the column named at the left; until it does, the takeoff says so.')
  // On site it is read and written on at its full size, on as many pages as it takes.
  return draft.sheet(sheet, {
    kind: 'site',
    widths: [1, 23, 38, 8, 7, 17],
    headingRow: TITLE_ROWS,
    landscape: false,
    footer: design.name,
    print: { percent: 100 },
  })
}
