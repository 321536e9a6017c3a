/** How a row of the Design sheet is written, kind by kind: its label, its name, its live value with the unit, its reason and how sure it is. */
import { formula } from '../../formula/formula.js'
import { assumable, assumableFields } from '../../takeoff/assumed.js'
import { closingCaution } from '../../takeoff/cautions.js'
import { allowedIn, type Field } from '../../takeoff/fields.js'
import { jobFields } from '../../takeoff/officeTables.js'
import { ownField } from '../../takeoff/ownFields.js'
import { gradeWords, MEMORY_NOTE } from '../../takeoff/results/grades.js'
import { foundFigures, resultGroups, type ResultRule } from '../../takeoff/results/index.js'
import { verdictByName, type VerdictName } from '../../takeoff/verdicts.js'
import { decimalsOf, symbolOf } from '../../units.js'
import { cellValue } from '../calls.js'
import { planPicture } from '../drawing/planPicture.js'
import { sectionPicture } from '../drawing/sectionPicture.js'
import { address, range, type PlanCell, type PlanValidation, type SheetDraft } from '../plan.js'
import type { JobContext } from '../sheetKind.js'
import { LIMIT, liveWords, measureOf } from '../words.js'
import { designColumns as columns, isConstant } from './designColumns.js'
import { inKey, keyOf, workWords, type DesignRow } from './designRows.js'

/** Two sums of the same figures differ by less than this share of them: a hundred thousand times what a double rounds off. */
const SAME_SUM = '1E-11'
/** Of section and plan, without their words above and below. */
const PICTURE_POINTS = 110

const results = new Map<string, ResultRule>(resultGroups.flatMap((group) => group.results).map((rule) => [rule.name, rule]))
const found = new Map<string, ResultRule>(foundFigures.map((rule) => [rule.name, rule]))
const flagLabels = new Map<string, string>(assumableFields.map((field) => [assumable[field], jobFields[field].label]))

export interface Putting {
  draft: SheetDraft
  job: JobContext
  sheet: string
  /** All rows, and where the first of them stands. */
  rows: readonly DesignRow[]
  firstRow: number
  validations: PlanValidation[]
}
type Of<Kind extends DesignRow['kind']> = Extract<DesignRow, { kind: Kind }>

const writers: { readonly [Kind in DesignRow['kind']]: (putting: Putting, row: Of<Kind>) => void } = {
  gap: () => undefined,
  note: ({ draft }) => draft.put(columns.label, 'faint', MEMORY_NOTE),
  section: ({ draft }, { text }) => Object.values(columns).forEach((column) => draft.put(column, 'section', column === columns.label ? text : null)),
  pictures: putPictures,
  verdict: putVerdict,
  caution: putCaution,
  input: putInput,
  result: putResult,
  found: putFound,
  flag: putFlag,
  changed: putChanged,
  key: putKey,
}

export function putDesignRow<Kind extends DesignRow['kind']>(putting: Putting, row: Of<Kind>): void {
  const write: (putting: Putting, row: Of<Kind>) => void = writers[row.kind as Kind]
  write(putting, row)
}

function putPictures({ draft, job: { design } }: Putting): void {
  const measure = measureOf(design)
  const page = { size: 9, mostHeight: PICTURE_POINTS }
  draft.drawings.push(
    { picture: sectionPicture(design, measure), row: draft.row, column: columns.label, page: { ...page, width: 330 }, ownRow_pt: 6 },
    { picture: planPicture(design, measure), row: draft.row, column: columns.words, page: { ...page, width: 250 }, ownRow_pt: 6 },
  )
}

/** The word and its sentence come first, the limit and where it stands behind them. */
function putVerdict({ draft, job: { design, names, writer }, sheet }: Putting, { name }: { name: string }): void {
  const rule = verdictByName.get(name)!
  const verdict = design.verdict(name as VerdictName)
  const limit = `${LIMIT}${rule.limit}; ${inKey(rule.source)}.`
  labelled(draft, rule.label, name)
  draft.put(columns.value, 'verdict', verdict, { formula: `IFERROR(${writer.write(rule.formula, sheet, rule.label)},"stop")` })
  draft.put(columns.words, 'wrapped', design.text(rule.wordsFormula) + limit, {
    formula: `${formula(rule.wordsFormula).render(names.from(sheet))}&"${limit.replace(/"/g, '""')}"`,
  })
  draft.put(columns.grade, 'faintWrapped', rule.source.grade)
  draft.put(columns.asMade, 'faintRight', verdict)
}

function putCaution({ draft, job: { names }, sheet }: Putting, { caution }: Of<'caution'>): void {
  draft.put(columns.label, 'wrapped', caution?.short ?? 'Always')
  if (caution) draft.put(columns.name, 'faintWrapped', caution.points)
  draft.put(columns.words, 'caution', caution?.words ?? closingCaution, caution ? liveWords(caution.text, names.from(sheet)) : {})
}

/** Inputs typed over, verdicts that turned with them or with a table, and one where any figure is not what it was. */
function putChanged({ draft, job: { design }, rows, firstRow }: Putting, { name }: { name: string }): void {
  const columnOf = (kind: DesignRow['kind'], column: number): string => {
    const at = rows.flatMap((row, index) => (row.kind === kind ? [firstRow + index] : []))
    return range(at[0]!, at.at(-1)!, column)
  }
  const changed = (kind: DesignRow['kind']): string => `SUMPRODUCT((${columnOf(kind, columns.value)}<>${columnOf(kind, columns.asMade)})*1)`
  const sum = rows.reduce((sum, row) => {
    const value = row.kind === 'result' ? cellValue(design.singleOf(row.name)) : null
    return typeof value === 'number' ? sum + value : sum
  }, 0)
  const made = address(draft.row, columns.asMade)
  // Programs differ in the last digits.
  const moved = `(ABS(SUM(${columnOf('result', columns.value)})-${made})>${SAME_SUM}*ABS(${made}))*1`
  labelled(draft, 'Inputs and verdicts that have changed since it was made, and 1 where a figure has', name)
  draft.put(columns.value, 'number', 0, { formula: `IFERROR(${changed('input')}+${changed('verdict')}+${moved},1)`, format: 0 })
  draft.put(
    columns.words,
    'faintWrapped',
    'Where it is not 0 every paper says that it is out of date, and the quote has no price. At the right the sum of all figures worked out, as it was made.',
  )
  draft.put(columns.asMade, 'faintRight', sum, { format: 0 })
}

function putInput({ draft, job: { design }, validations }: Putting, { name }: { name: string }): void {
  const field = Object.hasOwn(jobFields, name) ? (jobFields as Record<string, Field>)[name] : ownField(name)
  const value = design.value(name) as PlanCell['value']
  const isText = typeof value === 'string' && name !== 'Date'
  const isEmpty = value === '' || value === null
  const format = name === 'Date' ? 'date' : isText ? 'text' : inputDecimals(value)
  const from =
    design.origin(name) === 'sized' ? design.whySized(name) : design.job.defaulted.has(name) ? 'default; the row left it empty' : isEmpty ? 'left empty' : 'from the job row'
  labelled(draft, field?.label ?? name, name)
  draft.put(columns.value, isText && !isEmpty ? 'inputText' : 'input', isEmpty ? null : value, { format })
  draft.put(columns.asMade, 'faintRight', isEmpty ? null : value, { format })
  draft.put(columns.unit, 'unit', symbolOf(name))
  draft.put(columns.words, 'faintWrapped', `${from}. ${field?.help ?? 'A column of the office’s own.'}`)
  if (field?.kind !== 'spec') return
  const place = { firstRow: draft.row, lastRow: draft.row, column: columns.value, message: allowedIn(name, field, () => []) }
  if (field.spec.kind === 'choice') validations.push({ ...place, list: field.spec.options })
  if (field.spec.kind === 'number') validations.push({ ...place, span: [field.spec.least, field.spec.most] })
}

function putResult({ draft, job: { design, writer }, sheet }: Putting, { name }: { name: string }): void {
  const rule = results.get(name)!
  const value = cellValue(design.singleOf(name))
  const format = typeof value === 'number' ? resultDecimals(name, value) : undefined
  labelled(draft, rule.label, name)
  if (isConstant(rule)) {
    draft.put(columns.value, 'input', value, { format })
    draft.put(columns.asMade, 'faintRight', Number(rule.formula), { format: resultDecimals(name, Number(rule.formula)) })
  } else {
    const isWords = typeof value === 'string' && !value.startsWith('#')
    draft.put(columns.value, isWords ? 'text' : 'number', value, { formula: writer.write(rule.formula, sheet, `${rule.label} (${name})`), format })
  }
  draft.put(columns.unit, 'unit', symbolOf(name))
  draft.put(columns.words, 'faintWrapped', inKey(rule.source))
  draft.put(columns.grade, 'faintWrapped', gradeWords(rule))
}

function putFound({ draft, job: { design } }: Putting, { name }: { name: string }): void {
  const rule = found.get(name)!
  const value = cellValue(design.singleOf(name))
  const isNumber = typeof value === 'number'
  labelled(draft, rule.label, name)
  draft.put(columns.value, isNumber ? 'number' : 'text', value === '' ? null : value, { format: isNumber ? resultDecimals(name, value) : 'text' })
  draft.put(columns.unit, 'unit', symbolOf(name))
  draft.put(columns.words, 'faintWrapped', inKey(rule.source))
  draft.put(columns.grade, 'faintWrapped', rule.source.grade)
}

function putFlag({ draft, job: { design } }: Putting, { name }: { name: string }): void {
  const count = design.singleOf(name) as number
  labelled(draft, flagLabels.get(name) ?? 'Run lengths taken at their default', name)
  draft.put(columns.value, 'number', count, { format: 0 })
  draft.put(columns.words, 'faintWrapped', count === 0 ? 'Given.' : 'Left empty when the takeoff was made: no verdict that rests on it passes.')
}

function putKey({ draft }: Putting, { work }: Of<'key'>): void {
  const { title, grade } = workWords(work)
  draft.put(columns.label, 'faint', keyOf(work), { format: 'text' })
  draft.put(columns.words, 'faintWrapped', title)
  draft.put(columns.grade, 'faintWrapped', grade)
}

function labelled(draft: SheetDraft, label: string, name: string): void {
  draft.put(columns.label, 'wrapped', label)
  draft.put(columns.name, 'faintWrapped', name)
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
