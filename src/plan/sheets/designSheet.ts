/** The Design sheet: verdicts and cautions first, every result live with its unit and source, inputs copied from the row last. */
import { formula } from '../../formula/formula.js'
import { bibliography, citationText, isPlainSource, type Citation, type WorkId } from '../../sources.js'
import { closingCaution } from '../../takeoff/cautions.js'
import { assumable, assumableFields } from '../../takeoff/assumed.js'
import type { Design, RaisedCaution } from '../../takeoff/design.js'
import { allowedIn, type Field } from '../../takeoff/fields.js'
import { jobFields } from '../../takeoff/officeTables.js'
import { ownField } from '../../takeoff/ownFields.js'
import { gradeWords, MEMORY_NOTE } from '../../takeoff/results/grades.js'
import { foundFigures, resultGroups, type ResultRule } from '../../takeoff/results/index.js'
import type { Words } from '../../takeoff/template.js'
import { verdictByName, verdictRules, type VerdictName } from '../../takeoff/verdicts.js'
import { decimalsOf, symbolOf } from '../../units.js'
import { cellValue } from '../calls.js'
import { planPicture } from '../drawing/planPicture.js'
import { sectionPicture } from '../drawing/sectionPicture.js'
import type { NamePlaces } from '../places.js'
import { address, range, SheetDraft, TITLE_ROWS, type PlanCell, type PlanValidation, type SheetPlan } from '../plan.js'
import { CHANGED_SINCE, headed, sheetKind, type JobContext } from '../sheetKind.js'
import { LIMIT, liveWords, measureOf, wordsPlace } from '../words.js'

/** Columns of the sheet. */
export const designColumns = { name: 3, value: 4, asMade: 8 } as const
export const AS_MADE = 'As made'
export const VALUE = 'Value'
const VALUE_COLUMN = designColumns.value
const WORDS_COLUMN = 6
const LAST_COLUMN = designColumns.asMade
const FIRST_ROW = TITLE_ROWS + 1
/** Inputs, which belong into the row of Jobs. */
export const inputNames: readonly string[] = Object.keys(jobFields)
const isConstant = (rule: { formula: string }) => /^[\d.]+$/.test(rule.formula)
/** Results that formulas work out. */
export const workedNames: readonly string[] = resultGroups.flatMap((group) => group.results.filter((rule) => !isConstant(rule)).map(({ name }) => name))
/** House figures, which may be typed over and are kept. */
export const constantNames: readonly string[] = resultGroups.flatMap((group) => group.results.filter(isConstant).map(({ name }) => name))

/** Two sums of the same figures differ by less than this share of them: a hundred thousand times what a double rounds off. */
const SAME_SUM = '1E-11'

/** Of section and plan, without their words above and below. */
const PICTURE_POINTS = 110

/** The rows of the sheet, in order; a name's row is its place in this list. */
type SheetRow =
  | { kind: 'section'; text: string }
  | { kind: 'gap' }
  | { kind: 'pictures' }
  | { kind: 'note' }
  | { kind: 'caution'; caution: RaisedCaution | undefined }
  | { kind: 'key'; work: WorkId }
  | { kind: 'verdict' | 'input' | 'flag' | 'found' | 'result' | 'changed'; name: string }

/** Works cited on the sheet, in the order in which they come up: a line says the number, the key at the end the title. */
const keyed: readonly WorkId[] = [...new Set([...verdictRules, ...resultGroups.flatMap((group) => group.results), ...foundFigures].map(({ source }) => source.work))].filter(
  (work) => !isPlainSource(work),
)
const keyOf = (work: WorkId): string => `[${keyed.indexOf(work) + 1}]`
const inKey = (source: Citation): string => (isPlainSource(source.work) ? citationText(source) : `${keyOf(source.work)} ${source.locator}`.trim())

/** What stops and what hurts comes first, what was put in comes last. */
const rowsOf = (design: Design): readonly SheetRow[] => [
  { kind: 'section', text: 'VERDICTS, WORST FIRST AS MADE' },
  ...design.verdicts().map(({ name }) => ({ kind: 'verdict' as const, name })),
  { kind: 'gap' },
  { kind: 'section', text: 'CAUTIONS, WORST FIRST' },
  ...design.cautions().map((caution) => ({ kind: 'caution' as const, caution })),
  { kind: 'caution', caution: undefined },
  { kind: 'gap' },
  { kind: 'pictures' },
  { kind: 'gap' },
  ...resultGroups.flatMap(({ title, results: rules }): SheetRow[] => [
    { kind: 'section', text: title.toUpperCase() },
    ...rules.map(({ name }) => ({ kind: 'result' as const, name })),
    { kind: 'gap' },
  ]),
  { kind: 'section', text: 'FOUND WHEN THE JOB WAS MADE' },
  ...foundFigures.map(({ name }) => ({ kind: 'found' as const, name })),
  { kind: 'gap' },
  { kind: 'section', text: 'LEFT EMPTY IN THE JOB ROW, 1 WHERE IT WAS' },
  ...assumableFields.map((field) => ({ kind: 'flag' as const, name: assumable[field] })),
  { kind: 'flag', name: 'RunsAssumed' },
  { kind: 'gap' },
  { kind: 'section', text: 'INPUTS, COPIED FROM THE JOB ROW' },
  { kind: 'changed', name: CHANGED_SINCE },
  ...[...inputNames, ...design.ownFields].map((name) => ({ kind: 'input' as const, name })),
  { kind: 'gap' },
  { kind: 'section', text: 'KEY TO SOURCES' },
  ...keyed.map((work) => ({ kind: 'key' as const, work })),
  { kind: 'note' },
]

function placeDesign(names: NamePlaces, sheet: string, design: Design): void {
  rowsOf(design).forEach((row, at) => {
    if ('name' in row) names.set(row.name, sheet, address(FIRST_ROW + at, VALUE_COLUMN))
    if (row.kind === 'verdict') names.set(wordsPlace(row.name), sheet, address(FIRST_ROW + at, WORDS_COLUMN))
  })
}

const results = new Map<string, ResultRule>(resultGroups.flatMap((group) => group.results).map((rule) => [rule.name, rule]))
const found = new Map<string, ResultRule>(foundFigures.map((rule) => [rule.name, rule]))
const flagLabels = new Map<string, string>(assumableFields.map((field) => [assumable[field], jobFields[field].label]))

export const design = sheetKind({ kind: 'design', place: 40, prefix: 'Design', placed: placeDesign, plan: designSheet })

function designSheet({ design, names, writer, heading }: JobContext, sheet: string): SheetPlan {
  const draft = new SheetDraft()
  const validations: PlanValidation[] = []
  headed(draft, { heading, names }, sheet, 'Design: inputs, results, verdicts and cautions behind the takeoff')
  draft.next()
  ;['', 'Name', VALUE, 'Unit', 'Source or reason', 'Grade', AS_MADE].forEach((text, at) => draft.put(at + 2, text === VALUE || text === AS_MADE ? 'headingRight' : 'heading', text))
  draft.next()
  const rows = rowsOf(design)
  for (const row of rows) {
    if (row.kind === 'section') section(row.text)
    else if (row.kind === 'pictures') pictures()
    else if (row.kind === 'verdict') verdictRow(row.name)
    else if (row.kind === 'caution') cautionRow(row.caution)
    else if (row.kind === 'input') inputRow(row.name)
    else if (row.kind === 'result') resultRow(row.name)
    else if (row.kind === 'found') foundRow(row.name)
    else if (row.kind === 'flag') flagRow(row.name)
    else if (row.kind === 'changed') changedRow(row.name)
    else if (row.kind === 'key') keyRow(row.work)
    else if (row.kind === 'note') draft.put(2, 'faint', MEMORY_NOTE)
    draft.next()
  }

  function section(text: string): void {
    for (let column = 2; column <= LAST_COLUMN; column++) draft.put(column, 'section', column === 2 ? text : null)
  }

  function pictures(): void {
    const measure = measureOf(design)
    draft.drawings.push(
      { picture: sectionPicture(design, measure), row: draft.row, column: 2, page: { size: 9, width: 330, mostHeight: PICTURE_POINTS }, ownRow_pt: 6 },
      { picture: planPicture(design, measure), row: draft.row, column: 6, page: { size: 9, width: 250, mostHeight: PICTURE_POINTS }, ownRow_pt: 6 },
    )
  }

  function verdictRow(name: string): void {
    const rule = verdictByName.get(name)!
    draft.put(2, 'wrapped', rule.label)
    draft.put(3, 'faintWrapped', name)
    draft.put(VALUE_COLUMN, 'verdict', design.verdict(name as VerdictName), { formula: `IFERROR(${writer.write(rule.formula, sheet, rule.label)},"stop")` })
    // The word and its sentence come first, the limit and where it stands behind them.
    const limit = `${LIMIT}${rule.limit}; ${inKey(rule.source)}.`
    draft.put(WORDS_COLUMN, 'wrapped', design.text(rule.wordsFormula) + limit, {
      formula: `${formula(rule.wordsFormula).render(names.from(sheet))}&"${limit.replace(/"/g, '""')}"`,
    })
    draft.put(7, 'faintWrapped', rule.source.grade)
    draft.put(designColumns.asMade, 'faintRight', design.verdict(name as VerdictName))
  }

  /** Inputs typed over, verdicts that turned with them or with a table, and one where any figure is not what it was. */
  function changedRow(name: string): void {
    const column = (kind: SheetRow['kind'], of: number): string => {
      const at = rows.flatMap((row, index) => (row.kind === kind ? [FIRST_ROW + index] : []))
      return range(at[0]!, at.at(-1)!, of)
    }
    const changed = (kind: SheetRow['kind']): string => `SUMPRODUCT((${column(kind, VALUE_COLUMN)}<>${column(kind, designColumns.asMade)})*1)`
    const figures = column('result', VALUE_COLUMN)
    const sum = rows.reduce((sum, row) => {
      const value = row.kind === 'result' ? cellValue(design.singleOf(row.name)) : null
      return typeof value === 'number' ? sum + value : sum
    }, 0)
    const made = address(draft.row, designColumns.asMade)
    // Programs differ in the last digits.
    const moved = `(ABS(SUM(${figures})-${made})>${SAME_SUM}*ABS(${made}))*1`
    draft.put(2, 'wrapped', 'Inputs and verdicts that have changed since it was made, and 1 where a figure has')
    draft.put(3, 'faintWrapped', name)
    draft.put(VALUE_COLUMN, 'number', 0, { formula: `IFERROR(${changed('input')}+${changed('verdict')}+${moved},1)`, format: 0 })
    draft.put(
      6,
      'faintWrapped',
      'Where it is not 0 every paper says that it is out of date, and the quote has no price. At the right the sum of all figures worked out, as it was made.',
    )
    draft.put(designColumns.asMade, 'faintRight', sum, { format: 0 })
  }

  function inputRow(name: string): void {
    const field = Object.hasOwn(jobFields, name) ? (jobFields as Record<string, Field>)[name] : ownField(name)
    draft.put(2, 'wrapped', field?.label ?? name)
    draft.put(3, 'faintWrapped', name)
    const value = design.value(name) as PlanCell['value']
    const isText = typeof value === 'string' && name !== 'Date'
    const isEmpty = value === '' || value === null
    const format = name === 'Date' ? 'date' : isText ? 'text' : inputDecimals(value)
    draft.put(VALUE_COLUMN, isText && !isEmpty ? 'inputText' : 'input', isEmpty ? null : value, { format })
    draft.put(designColumns.asMade, 'faintRight', isEmpty ? null : value, { format })
    draft.put(5, 'unit', symbolOf(name))
    const from = design.sized.has(name) ? design.whySized(name) : design.job.defaulted.has(name) ? 'default; the row left it empty' : isEmpty ? 'left empty' : 'from the job row'
    draft.put(6, 'faintWrapped', `${from}. ${field?.help ?? 'A column of the office’s own.'}`)
    if (field?.kind === 'spec' && field.spec.kind === 'choice')
      validations.push({ firstRow: draft.row, lastRow: draft.row, column: VALUE_COLUMN, list: field.spec.options, message: allowedIn(name, field, () => []) })
    if (field?.kind === 'spec' && field.spec.kind === 'number')
      validations.push({ firstRow: draft.row, lastRow: draft.row, column: VALUE_COLUMN, span: [field.spec.least, field.spec.most], message: allowedIn(name, field, () => []) })
  }

  function resultRow(name: string): void {
    const rule = results.get(name)!
    const value = cellValue(design.singleOf(name))
    draft.put(2, 'wrapped', rule.label)
    draft.put(3, 'faintWrapped', name)
    const typed = isConstant(rule)
    draft.put(VALUE_COLUMN, typed ? 'input' : typeof value === 'string' && !value.startsWith('#') ? 'text' : 'number', value, {
      ...(typed ? {} : { formula: writer.write(rule.formula, sheet, `${rule.label} (${name})`) }),
      format: typeof value === 'number' ? resultDecimals(name, value) : undefined,
    })
    if (typed) draft.put(designColumns.asMade, 'faintRight', Number(rule.formula), { format: resultDecimals(name, Number(rule.formula)) })
    draft.put(5, 'unit', symbolOf(name))
    draft.put(6, 'faintWrapped', inKey(rule.source))
    draft.put(7, 'faintWrapped', gradeWords(rule))
  }

  function foundRow(name: string): void {
    const rule = found.get(name)!
    const value = cellValue(design.singleOf(name))
    draft.put(2, 'wrapped', rule.label)
    draft.put(3, 'faintWrapped', name)
    draft.put(VALUE_COLUMN, typeof value === 'number' ? 'number' : 'text', value === '' ? null : value, {
      format: typeof value === 'number' ? resultDecimals(name, value) : 'text',
    })
    draft.put(5, 'unit', symbolOf(name))
    draft.put(6, 'faintWrapped', inKey(rule.source))
    draft.put(7, 'faintWrapped', rule.source.grade)
  }

  function flagRow(name: string): void {
    draft.put(2, 'wrapped', flagLabels.get(name) ?? 'Run lengths taken at their default')
    draft.put(3, 'faintWrapped', name)
    draft.put(VALUE_COLUMN, 'number', design.singleOf(name) as number, { format: 0 })
    const count = design.singleOf(name) as number
    draft.put(6, 'faintWrapped', count === 0 ? 'Given.' : 'Left empty when the takeoff was made: no verdict that rests on it passes.')
  }

  function keyRow(work: WorkId): void {
    const { title, publisher, edition, grade } = bibliography[work]
    draft.put(2, 'faint', keyOf(work), { format: 'text' })
    draft.put(6, 'faintWrapped', [publisher, title, edition].filter(Boolean).join(', '))
    draft.put(7, 'faintWrapped', grade)
  }

  function cautionRow(caution: RaisedCaution | undefined): void {
    draft.put(2, 'wrapped', caution?.short ?? 'Always')
    if (caution) draft.put(3, 'faintWrapped', caution.points)
    draft.put(6, 'caution', caution?.words ?? closingCaution, caution ? live(caution.text) : {})
  }

  function live(words: Words): { formula?: string } {
    return liveWords(words, names.from(sheet))
  }

  return draft.sheet(sheet, {
    kind: 'design',
    widths: [1, 27.5, 23.5, 13, 9, 54, 13, 11],
    headingRow: TITLE_ROWS,
    landscape: true,
    footer: design.name,
    validations,
  })
}

/** Counts are whole; a share under 1 shows what a limit of a few percent is compared with. */
function resultDecimals(name: string, value: number): PlanCell['format'] {
  // A year has no comma in it.
  if (name === 'WorstYear') return { code: '0' }
  // Under ten a rounded figure would contradict the reason beside it: 0.25 days are not none.
  if (symbolOf(name) !== '') return Number.isInteger(value) || Math.abs(value) >= 10 ? decimalsOf(name) : Math.max(2, decimalsOf(name))
  return Number.isInteger(value) ? 0 : Math.abs(value) < 1 ? 4 : decimalsOf(name)
}

/** An input shows the figure that was typed, with no more decimals than it has. */
function inputDecimals(value: PlanCell['value']): number | undefined {
  if (typeof value !== 'number') return undefined
  return Math.min(4, (String(value).split('.')[1] ?? '').length)
}
