/** The local workbook page: a real spreadsheet in the browser with the same pane beside it. */
import { unsavedWords } from './unsavedWords.js'
import { Model, Spreadsheet } from '@odoo/o-spreadsheet'
import templates from '@odoo/o-spreadsheet/dist/o_spreadsheet.xml'
import { App } from '@odoo/owl'
import { GridHost } from '../src/hosts/grid.js'
import { gridData } from '../src/hosts/gridData.js'
import { registerGridFunctions } from '../src/hosts/gridFunctions.js'
import { registerTexts } from '../src/hosts/gridTexts.js'
import { registerTogether } from '../src/hosts/gridTogether.js'
import type { SheetPlan } from '../src/plan/plan.js'
import { templateWorkbook } from '../src/plan/workbook.js'
import { startingOffice } from '../src/takeoff/demo.js'
import { trimMenus } from './gridMenus.js'
import { reachMenus } from './menuKeys.js'
import { typeOverAtOnce } from './gridTyping.js'
import type { OpenedFile } from './openedFile.js'
import { forgetUnsaved, KEPT_FORMAT, keepUnsaved, keptPlan, readUnsaved, type Unsaved } from './keep.js'
import { Pane } from './pane/pane.js'
import { Settings } from './pane/settings.js'
import { walkAreas } from './walkAreas.js'
import { made } from './version.js'

/** The grid prints how long each step took; nobody here needs it. */
console.debug = () => undefined
const KEEP_AFTER_MS = 1500
const LOCK = 'cistern-sheet '

registerGridFunctions()
registerTogether()
registerTexts()
typeOverAtOnce()
trimMenus()
reachMenus()

const gridElement = document.getElementById('grid')!
const paneElement = document.getElementById('pane')!
const status = document.getElementById('bar-status')!
const say = (words: string) => (status.textContent = words)

let app: { destroy(): void } | undefined
let model: InstanceType<typeof Model>
/** Where this workbook's unsaved work is kept. */
let session = ''
/** The workbook as it was opened or saved, and as it was kept last. */
let safe = ''
let kept = ''
let pause = KEEP_AFTER_MS
let timer: ReturnType<typeof setTimeout> | undefined

/** What the model is at: every change, undo too, gives it another. */
const at = (): string => (model as unknown as { session: { getRevisionId(): string } }).session.getRevisionId()
/** The workbook as data. The grid's own export tries its work a second time on a model of its own, which takes five times as long. */
const content = (): object => (model as unknown as { _exportData(clean: boolean): object })._exportData(false)
const isUnsaved = (): boolean => model !== undefined && at() !== safe
/** Asks before unsaved work leaves the page. It stays in the browser's database all the same. */
const mayLeave = (): boolean =>
  !isUnsaved() || window.confirm('This workbook has changes that are not saved as .xlsx. Continue without saving? They stay in this browser until they are thrown away.')

async function keepNow(): Promise<void> {
  clearTimeout(timer)
  timer = undefined
  if (at() === kept || at() === safe) return
  kept = at()
  const start = performance.now()
  const data = content()
  const plans = [...host.made.values()].map(keptPlan)
  // A large workbook is kept less often: keeping it takes no more than a twentieth of the time.
  pause = Math.max(KEEP_AFTER_MS, 20 * (performance.now() - start))
  const file = opened && { bytes: opened.bytes, name: opened.name, lacking }
  await keepUnsaved({ format: KEPT_FORMAT, session, when: new Date().toISOString(), data, made: plans, file }).catch(() =>
    say('This browser keeps no unsaved work: save the file before closing.'),
  )
}

/** What stands behind a grid from the moment that it shows. */
interface Behind {
  opened: OpenedFile
  lacking: string
  fileName: string
}
/** Workbooks shown so far: one that was asked for before another, and is ready after it, does not take its place. */
let shown = 0

/** Shows a workbook; answers whether it did. */
async function show(data: object, from: string = `${new Date().toISOString()} ${crypto.randomUUID()}`, behind?: (model: InstanceType<typeof Model>) => Behind): Promise<boolean> {
  const turn = ++shown
  if (model !== undefined) await keepNow()
  if (turn !== shown) return false
  // Data that no grid can be made of leave the one that stands here.
  const next = new Model(data as never)
  app?.destroy()
  gridElement.replaceChildren()
  model = next
  // With it: a tab that is left while the grid mounts must keep nothing of it under the work that stood here.
  session = from
  safe = kept = at()
  // Not before: what stood here was kept with the file that it was opened from.
  const { opened: file, lacking: missing, fileName: name } = behind?.(model) ?? {}
  opened = file
  lacking = missing ?? ''
  fileName = name ?? 'cistern-sheet'
  const mounted = new App(
    Spreadsheet as never,
    {
      props: {
        model,
        notifyUser: ({ text }: { text: string }) => say(text),
        raiseError: (text: string, callback?: () => void) => (say(text), callback?.()),
        askConfirmation: (text: string, confirm: () => void) => (window.confirm(text) ? confirm() : undefined),
      },
      templates,
      translateFn: (text: string) => text,
      warnIfNoStaticProps: false,
      test: false,
    } as never,
  )
  app = mounted
  await mounted.mount(gridElement)
  host = new GridHost(model, () => composer()?.focus())
  host.onChange(() => {
    // Not put off by the next change: who types on and on would have nothing kept.
    timer ??= setTimeout(() => void keepNow(), pause)
  })
  await takeSession(from)
  safe = kept = at()
  const pane = new Pane(paneElement, host, made, await Settings.open())
  await pane.refresh()
  // For the tests in a browser, and for the curious: the model of the page.
  Object.assign(window, { cisternModel: model })
  return true
}

/** What the file that was opened has and the page does not keep, in words; and its name. */
let lacking = ''
let fileName = 'cistern-sheet'
/** The file behind the grid, where one was opened. */
let opened: OpenedFile | undefined
let host: GridHost
/** Where the grid takes what is typed. */
const composer = () => gridElement.querySelector<HTMLElement>('.o-grid-composer .o-composer')

const starting = (isDemo: boolean) => gridData(templateWorkbook(startingOffice(isDemo), made()))

/** The grid has drawn what it was given: before, the page answers to nothing. */
const drawn = () => new Promise<void>((resolve) => requestAnimationFrame(() => setTimeout(resolve)))

async function openFile(file: File): Promise<void> {
  try {
    say(`Opening ${file.name}; a file with many takeoffs takes a few seconds.`)
    const [{ OpenedFile }, { gridFromWorkbook }] = await Promise.all([import('./openedFile.js'), import('./xlsxToGrid.js')])
    const bytes = new Uint8Array(await file.arrayBuffer())
    const { data, notKept, ofSheets, codes } = await gridFromWorkbook(bytes, file.name)
    if (!mayLeave()) return void say('')
    const isShown = await show(data, undefined, (grid) => ({
      opened: new OpenedFile(bytes, file.name, grid, ofSheets, codes),
      lacking: [...notKept].map(([kind, count]) => `${kind} (${count})`).join(', '),
      fileName: withoutEnding(file.name),
    }))
    if (isShown) await drawn()
    if (isShown) say(lacking ? `${file.name} is open. The page does not show its ${lacking}; they stay in the file when it is saved.` : `${file.name} is open.`)
  } catch (error) {
    say(error instanceof Error ? error.message : String(error))
  }
}

async function saveFile(): Promise<void> {
  let bytes: Uint8Array
  let isOpenedKept = false
  try {
    const { workbookFromGrid } = await import('./gridToXlsx.js')
    const kept = opened?.saved(model, host.made)
    // Sheets taken away or renamed here cannot be written into the file as it was: it is written anew, without what the page does not show.
    const lost = kept ? opened!.lostOn(kept.anew, kept.moved) : opened ? lacking : ''
    if (lost && !window.confirm(`The file saved here will lack what this page does not show: ${lost}. The file that was opened stays as it is. Save?`)) return
    isOpenedKept = kept !== undefined
    bytes = kept?.bytes ?? (await workbookFromGrid(model, host.made, opened && ((sheet) => opened!.inFile(sheet))))
  } catch (error) {
    return void say(`Not saved: ${error instanceof Error ? error.message : String(error)} The workbook on the page stays as it is.`)
  }
  clearTimeout(timer)
  timer = undefined
  safe = kept = at()
  const link = document.createElement('a')
  link.href = URL.createObjectURL(new Blob([bytes as BlobPart], { type: 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet' }))
  // A workbook with macros keeps the ending that says so; written anew it has none any more.
  const saved = `${fileName}.${isOpenedKept && opened?.hasMacros ? 'xlsm' : 'xlsx'}`
  link.download = saved
  link.click()
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000)
  say(`Saved as ${saved}.`)
  await forgetUnsaved(session).catch(() => undefined)
}

/** Sessions of this page, each with what lets go of it. */
const ours = new Map<string, () => void>()
/** Held as long as the page lives: no other tab offers the work of this one, takes it or throws it away. Answers whether it is ours. */
async function takeSession(name: string): Promise<boolean> {
  if (!navigator.locks || ours.has(name)) return true
  return new Promise((resolve) => {
    void navigator.locks.request(`${LOCK}${name}`, { ifAvailable: true }, (lock) => {
      resolve(lock !== null)
      return lock && new Promise<void>((release) => ours.set(name, release))
    })
  })
}
function letGo(name: string): void {
  ours.get(name)?.()
  ours.delete(name)
}
const liveSessions = async (): Promise<readonly (string | undefined)[]> => ((await navigator.locks?.query())?.held ?? []).map(({ name }) => name)

const withoutEnding = (name: string): string => name.replace(/\.xls\w$/i, '')

/** A file that was kept with the work on it, as it was opened. */
async function fileBehind({ bytes, name, lacking: missing }: NonNullable<Unsaved['file']>): Promise<Behind> {
  const [{ OpenedFile }, { gridFromWorkbook }] = await Promise.all([import('./openedFile.js'), import('./xlsxToGrid.js')])
  const { data, ofSheets, codes } = await gridFromWorkbook(bytes, name)
  return { opened: new OpenedFile(bytes, name, new Model(data as never), ofSheets, codes), lacking: missing, fileName: withoutEnding(name) }
}

const IN_ANOTHER_TAB = 'That work is open in another tab of this browser: go on there.'

/** The grid as it was left, and behind it the file that it was opened from. */
async function continueWith({ session: name }: Unsaved): Promise<boolean> {
  if (!(await takeSession(name))) return (say(IN_ANOTHER_TAB), false)
  try {
    // As it stands now: another tab may have gone on with it since it was offered here.
    const found = (await readUnsaved()).find((one) => one.session === name)
    if (!found) throw new Error('it was saved or thrown away in another tab')
    const { data, made: plans = [], file } = found
    const behind = file && (await fileBehind(file))
    if (!(await show(data as object, name, behind && (() => behind)))) return false
    for (const plan of plans.map((text) => JSON.parse(text) as SheetPlan)) host.made.set(plan.name, plan)
    safe = ''
    return true
  } catch (error) {
    letGo(name)
    say(`The work that was kept cannot be shown (${error instanceof Error ? error.message : String(error)}). It stays where it is kept.`)
    return false
  }
}

async function throwAway({ session: name }: Unsaved): Promise<boolean> {
  if (!(await takeSession(name))) return (say(IN_ANOTHER_TAB), false)
  try {
    await forgetUnsaved(name)
    return true
  } catch {
    say('This browser does not let go of what it keeps.')
    return false
  } finally {
    letGo(name)
  }
}

/** One line for each workbook that an earlier session left unsaved. */
function offer(list: readonly Unsaved[]): void {
  const place = document.getElementById('restore')!
  place.hidden = !list.length
  place.replaceChildren(
    ...list.map((unsaved) => {
      const line = document.createElement('p')
      const button = (words: string, work: () => Promise<boolean>) => {
        const element = document.createElement('button')
        element.type = 'button'
        element.textContent = words
        element.addEventListener('click', () => {
          void work().then((isDone) => {
            // What was not done is still offered.
            if (isDone) line.remove()
            place.hidden = place.childElementCount === 0
          })
        })
        return element
      }
      const isReadable = (unsaved.format ?? 1) <= KEPT_FORMAT && typeof unsaved.data === 'object' && unsaved.data !== null
      line.append(
        isReadable ? `Unsaved work${unsavedWords(unsaved)} is here.` : 'Unsaved work is here that this version of the page cannot read: it stays where it is kept.',
        ...(isReadable ? [button('Continue with it', () => continueWith(unsaved))] : []),
        button('Throw it away', () => throwAway(unsaved)),
      )
      return line
    }),
  )
}

const input = document.getElementById('file') as HTMLInputElement
document.getElementById('open-file')!.addEventListener('click', () => input.click())
document.getElementById('save-file')!.addEventListener('click', () => void saveFile())
for (const [id, isDemo] of [
  ['new-empty', false],
  ['new-demo', true],
] as const)
  document.getElementById(id)!.addEventListener('click', () => begin(isDemo))
function begin(isDemo: boolean): void {
  if (!mayLeave()) return
  void show(starting(isDemo)).then((isShown) => isShown && say(isDemo ? 'A new workbook from the demo is open.' : 'A new, empty workbook is open.'))
}
input.addEventListener('change', () => {
  if (input.files?.[0]) void openFile(input.files[0])
  input.value = ''
})
document.addEventListener('visibilitychange', () => {
  if (document.visibilityState === 'hidden' && isUnsaved()) void keepNow()
})
window.addEventListener('beforeunload', (event) => {
  if (!isUnsaved()) return
  void keepNow()
  event.preventDefault()
})
walkAreas([() => document.getElementById('open-file'), composer, () => document.getElementById('job-search')])

void show(starting(true)).then(async () => {
  const live = await liveSessions()
  const unsaved = await readUnsaved().catch((error: unknown) => {
    say(`What this browser keeps of unsaved work cannot be read (${error instanceof Error ? error.message : String(error)}). It stays where it is kept.`)
    return []
  })
  offer(unsaved.filter(({ session: name }) => !live.includes(`${LOCK}${name}`)))
})
