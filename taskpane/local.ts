/** The local workbook page: a real spreadsheet in the browser with the same pane beside it. */
import { Model, Spreadsheet } from '@odoo/o-spreadsheet'
import templates from '@odoo/o-spreadsheet/dist/o_spreadsheet.xml'
import { App } from '@odoo/owl'
import { GridHost } from '../src/hosts/grid.js'
import { gridData } from '../src/hosts/gridData.js'
import { registerGridFunctions } from '../src/hosts/gridFunctions.js'
import { registerTogether } from '../src/hosts/gridTogether.js'
import { templateWorkbook } from '../src/plan/workbook.js'
import { startingOffice } from '../src/takeoff/demo.js'
import { typeOverAtOnce } from './gridTyping.js'
import { forgetUnsaved, keepUnsaved, readUnsaved, type Unsaved } from './keep.js'
import { Pane } from './pane/pane.js'
import { made } from './version.js'

/** The grid prints how long each step took; nobody here needs it. */
console.debug = () => undefined
const KEEP_AFTER_MS = 1500

registerGridFunctions()
registerTogether()
typeOverAtOnce()

const gridElement = document.getElementById('grid')!
const paneElement = document.getElementById('pane')!
const status = document.getElementById('bar-status')!
const say = (words: string) => (status.textContent = words)

let app: { destroy(): void } | undefined
let model: InstanceType<typeof Model>

async function show(data: object): Promise<void> {
  app?.destroy()
  gridElement.replaceChildren()
  model = new Model(data as never)
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
  const host = new GridHost(model)
  let timer: ReturnType<typeof setTimeout> | undefined
  let kept = ''
  host.onChange(() => {
    clearTimeout(timer)
    timer = setTimeout(() => {
      const json = JSON.stringify(model.exportData())
      if (json === kept) return
      const isFirst = kept === ''
      kept = json
      if (!isFirst)
        void keepUnsaved({ when: new Date().toISOString(), data: JSON.parse(json) as unknown }).catch(() =>
          say('This browser keeps no unsaved work: save the file before closing.'),
        )
    }, KEEP_AFTER_MS)
  })
  kept = JSON.stringify(model.exportData())
  const pane = new Pane(paneElement, host, made)
  await pane.refresh()
  // For the tests in a browser, and for the curious: the model of the page.
  Object.assign(window, { cisternModel: model })
}

const demo = () => gridData(templateWorkbook(startingOffice(true), made()))

async function openFile(file: File): Promise<void> {
  try {
    const { gridFromWorkbook } = await import('./xlsxToGrid.js')
    await show(await gridFromWorkbook(new Uint8Array(await file.arrayBuffer()), file.name))
    say(`${file.name} is open.`)
  } catch (error) {
    say(error instanceof Error ? error.message : String(error))
  }
}

async function saveFile(): Promise<void> {
  const { workbookFromGrid } = await import('./gridToXlsx.js')
  const bytes = await workbookFromGrid(model)
  const link = document.createElement('a')
  link.href = URL.createObjectURL(new Blob([bytes as BlobPart], { type: 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet' }))
  link.download = 'cistern-sheet.xlsx'
  link.click()
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000)
  await forgetUnsaved()
  say('Saved as cistern-sheet.xlsx.')
}

function offer(unsaved: Unsaved): void {
  const place = document.getElementById('restore')!
  const button = (words: string, work: () => void) => {
    const element = document.createElement('button')
    element.type = 'button'
    element.textContent = words
    element.addEventListener('click', () => {
      place.hidden = true
      work()
    })
    return element
  }
  place.replaceChildren(
    `Unsaved work of ${unsaved.when.slice(0, 16).replace('T', ' ')} (UTC) is here.`,
    button('Continue with it', () => void show(unsaved.data as object)),
    button('Throw it away', () => void forgetUnsaved()),
  )
  place.hidden = false
}

const input = document.getElementById('file') as HTMLInputElement
document.getElementById('open-file')!.addEventListener('click', () => input.click())
document.getElementById('save-file')!.addEventListener('click', () => void saveFile())
document.getElementById('new-demo')!.addEventListener('click', () => void show(demo()))
input.addEventListener('change', () => {
  if (input.files?.[0]) void openFile(input.files[0])
  input.value = ''
})

void show(demo()).then(async () => {
  const unsaved = await readUnsaved().catch(() => undefined)
  if (unsaved) offer(unsaved)
})
