/** The pane: pick a job, see what it says, make its takeoff. One bundle for Excel and for the local workbook page. */
import type { ShownHost } from '../../src/hosts/host.js'
import { makeTakeoffs, type Outcome } from '../../src/hosts/makeTakeoffs.js'
import { hasNoTable, addJob, addRainDays, nameHeading, nothingStanding, open, setUp, standingOf, unusedRows, type Opened, type Standing } from '../../src/hosts/session.js'
import type { Flavor } from '../../src/plan/calls.js'
import type { Made } from '../../src/plan/plan.js'
import { isUnpriced, placeText, placesInWords, problemText, ProblemsError, refusalText, type Problem } from '../../src/takeoff/fields.js'
import { FIRST_ROW } from '../../src/takeoff/firstRow.js'
import { formerNameOf, rowNamed, type Office } from '../../src/takeoff/office.js'
import { keyColumn, type TableName } from '../../src/takeoff/officeTables.js'
import { workJob } from '../../src/takeoff/takeoff.js'
import { fill, h } from './element.js'
import { functionsView } from './functionsView.js'
import { fitLabels, jobView } from './jobView.js'
import { guidedRow } from './guidedRow.js'
import { rainFold } from './rainFold.js'
import type { Settings } from './settings.js'
import type { Shown } from './units.js'

/** Edits come in bursts; the pane looks again when they pause. */
const PAUSE_MS = 350
/** More problems of one sheet than this are folded where other sheets have some too. */
const MANY_PROBLEMS = 6

export class Pane {
  private opened: Opened = { office: undefined, missing: [], sheetNames: new Map() }
  private job = ''
  /** The row of Jobs that it stands in. */
  private jobRow: number | undefined
  private isWriting = false
  /** The search has no hit, and nothing of a job is in sight. */
  private isNoneFound = false
  /** Problems of the last making, shown until the next one. */
  private held: readonly Problem[] = []
  /** What stands on the sheets of jobs, as far as it was read. */
  private standing = new Map<string, Standing>()
  /** Takeoffs of the last making, and whether some of them are gone since. */
  private lastMade: readonly string[] = []
  private isGone = false
  /** Words that hold for as long as problems stand above, or for as long as none do; what is said in their place; and the job that was not made, where it was the one in sight. */
  private told: { words: string; whileProblems: boolean; then: string; notMade: string | undefined } | undefined
  private running: AbortController | undefined
  /** What people typed that would be written over, and that was said. */
  private readonly toldLost = new Set<string>()
  private timer: ReturnType<typeof setTimeout> | undefined

  private readonly setup = h('section', { class: 'setup', hidden: true })
  private readonly search = h('input', { type: 'search', id: 'job-search', class: 'search', autocomplete: 'off', placeholder: 'find' })
  private readonly picker = h('select', { id: 'job-picker', class: 'picker' })
  private readonly site = h('p', { class: 'site' })
  private readonly jobs = h(
    'section',
    { class: 'jobs', hidden: true },
    h('label', { for: 'job-search', class: 'unseen' }, 'Find a job'),
    this.search,
    h('label', { for: 'job-picker', class: 'unseen' }, 'Job'),
    this.picker,
    this.site,
  )
  private readonly glance = h('section', { class: 'glance-holder', 'aria-live': 'off' })
  private readonly problems = h('section', { class: 'problems', hidden: true, 'aria-label': 'Problems' })
  private readonly make = h('button', { type: 'button', class: 'button primary make', on: { click: () => void this.run() } }, 'Make takeoff')
  private readonly cancel = h('button', { type: 'button', class: 'button cancel', hidden: true, on: { click: () => this.running?.abort() } }, 'Cancel')
  private readonly all = h('input', { type: 'checkbox', id: 'all-jobs' })
  private readonly flavor = h('select', { id: 'flavor' }, h('option', { value: 'native' }, 'ordinary formulas'), h('option', { value: 'cells' }, 'with cell functions'))
  private readonly progress = h('progress', { class: 'progress', hidden: true, 'aria-label': 'Writing sheets' })
  private readonly status = h('p', { class: 'status', role: 'status' })
  private readonly actions = h(
    'section',
    { class: 'actions', hidden: true },
    this.make,
    this.cancel,
    this.progress,
    this.status,
    h('p', { class: 'choices' }, this.all, h('label', { for: 'all-jobs' }, 'all jobs'), h('label', { for: 'flavor', class: 'unseen' }, 'Formulas'), this.flavor),
  )

  private readonly newJob = guidedRow(
    (table) => void this.guarded(() => this.host.select({ sheet: this.opened.office!.sheets[table], row: FIRST_ROW, column: keyColumn(table) })),
    (typed) =>
      this.alone(async () => {
        try {
          const row = await addJob(this.host, this.opened.office!, typed)
          this.job = typed.Job.trim()
          this.settings.set('job', this.job)
          this.search.value = ''
          await this.refresh()
          this.say(`${this.job} is in row ${row} of ${this.opened.office!.sheets.Jobs}; every other column has its default.`)
          return []
        } catch (error) {
          if (error instanceof ProblemsError) return error.problems
          this.say(wordsOf(error))
          return undefined
        }
      }),
    // Total, problems and verdicts stand at the top.
    () => this.jobs.parentElement!.firstElementChild!.scrollIntoView({ block: 'start' }),
  )
  private readonly rain = rainFold(async (text, file, choice) => {
    await this.alone(() =>
      this.guarded(async () => {
        this.say(`Reading ${file}`)
        this.say(`${choice.station}: ${await addRainDays(this.host, text, file, choice, this.made())}.`)
        await this.refresh()
      }),
    )
  })

  constructor(
    root: HTMLElement,
    private readonly host: ShownHost,
    private readonly made: () => Made,
    private readonly settings: Settings,
  ) {
    const functions = h(
      'details',
      { class: 'fold', id: 'functions' },
      h('summary', {}, 'Functions'),
      functionsView((formula) => void this.insert(formula)),
      host.wake ? h('button', { type: 'button', class: 'button wake', on: { click: () => void this.wake() } }, 'Wake cells that show #NAME?') : h('span', {}),
    )
    functions.open = this.settings.get('functionsOpen')
    functions.addEventListener('toggle', () => this.settings.set('functionsOpen', functions.open))
    // What stands in a fold has no width until it is opened.
    this.glance.addEventListener('toggle', () => fitLabels(this.glance), true)
    fill(
      root,
      h('header', {}, h('h1', {}, 'Cistern Sheet')),
      this.setup,
      this.jobs,
      this.problems,
      this.glance,
      this.actions,
      this.newJob.element,
      this.rain.element,
      functions,
      this.settingsFold(),
    )
    this.flavor.value = host.flavor
    if (!host.takesCalls) {
      this.flavor.disabled = true
      this.say('This Excel runs no cell functions (iPad, and volume-licensed 2021 and earlier): takeoffs are made in ordinary formulas, which work here.')
    }
    this.job = this.settings.get('job')
    this.all.addEventListener('change', () => this.showJob())
    this.search.addEventListener('input', () => this.listJobs())
    this.picker.addEventListener('change', () => this.pick(this.picker.value))
    host.onSelection((sheet, row) => this.follow(sheet, row))
    host.onChange(() => this.lookAgain())
  }

  /** Reads the workbook and shows what it holds. */
  async refresh(): Promise<void> {
    try {
      this.opened = await open(this.host)
      this.standing = new Map()
      this.sayGone()
      this.held = this.held.filter((problem) => this.stillStands(problem))
      this.showSetup()
      this.listJobs()
      if (!this.isNoneFound) this.showJob()
    } catch (error) {
      this.say(wordsOf(error))
    }
  }

  /** The words of the last making point to problems above: not when there are none. */
  private sayMended(): void {
    const { told } = this
    // Something else has been said since.
    if (told && this.status.textContent !== told.words) this.told = undefined
    if (!this.told || this.told.whileProblems !== this.problems.hidden) return
    const isMended = this.told.whileProblems && this.told.notMade === this.job
    this.say(isMended ? `What was wrong with ${this.job} is mended: make its takeoff again.` : this.told.then)
    this.told = isMended ? { words: this.status.textContent ?? '', whileProblems: false, then: '', notMade: undefined } : undefined
  }

  /** Takeoffs that were made here last are gone: undone, or taken away. */
  private sayGone(): void {
    const gone = this.lastMade.filter((name) => !this.opened.sheetNames.has(name.toLowerCase()))
    if (this.isGone && !gone.length) this.say(`${placesInWords(this.lastMade)}: here again.`)
    if (this.isGone === gone.length > 0) return
    this.isGone = gone.length > 0
    if (!this.isGone) return
    this.say(`${placesInWords(gone)}: not here any more, undone or taken away with the other sheets. Redo brings back what was undone.`)
  }

  private lookAgain(): void {
    if (this.running) return
    clearTimeout(this.timer)
    this.timer = setTimeout(() => void this.refresh(), PAUSE_MS)
  }

  private showSetup(): void {
    const { office, missing } = this.opened
    this.setup.hidden = office !== undefined
    this.jobs.hidden = this.actions.hidden = this.rain.element.hidden = this.newJob.element.hidden = office === undefined
    if (office) this.newJob.show(office)
    if (office) this.rain.show(office.tables.Rain.map(({ cells }) => String(cells.Station ?? '')).filter(Boolean))
    if (office) return
    fill(
      this.setup,
      h(
        'p',
        {},
        `This workbook has no table ${missing.join(', ')} yet. Setting it up adds them on sheets of their own; nothing that exists is changed. A sheet whose name or first heading was changed counts as missing: change it back.`,
      ),
      h('button', { type: 'button', class: 'button primary set-up', on: { click: () => void this.setUp(false) } }, 'Set up this workbook'),
      hasNoTable(missing)
        ? h('button', { type: 'button', class: 'button set-up-demo', on: { click: () => void this.setUp(true) } }, 'Set up with the demo: invented jobs, tanks and prices')
        : '',
    )
  }

  private async setUp(demo: boolean): Promise<void> {
    await this.alone(() =>
      this.guarded(async () => {
        const added = await setUp(this.host, this.made(), demo)
        this.say(`Added: ${added.join(', ')}. Fill in Jobs, Tanks, Pumps, Rain and Prices, then pick a job here.`)
      }),
    )
    await this.refresh()
  }

  private listJobs(): void {
    const rows = (this.opened.office?.tables.Jobs ?? []).filter(({ cells }) => cells.Job !== null)
    const wanted = this.search.value.trim().toLowerCase()
    const shown = rows.filter(({ cells }) => `${cells.Job} ${cells.Site ?? ''}`.toLowerCase().includes(wanted))
    fill(this.picker, ...shown.map(({ cells }) => h('option', { value: String(cells.Job ?? ''), selected: cells.Job === this.job }, String(cells.Job ?? '(no name)'))))
    if (!this.opened.office?.tables.Jobs.length && this.opened.office) this.showFirstSteps(this.opened.office)
    // A job that got another name is the one of its row still.
    const known = shown.find(({ cells }) => cells.Job === this.job) ?? shown.find(({ row }) => row === this.jobRow)
    if (known) this.jobRow = known.row
    if (shown.length && known?.cells.Job !== this.job) this.pick(String((known ?? shown[0]!).cells.Job ?? ''))
    if (rows.length && !shown.length) {
      // Nothing of another job stays in sight.
      fill(this.glance, h('p', { class: 'empty' }, `No job or site holds "${this.search.value.trim()}".`))
      this.site.textContent = ''
      this.problems.hidden = true
    } else if (shown.length && (this.isNoneFound || !this.glance.querySelector('.glance'))) this.showJob()
    this.isNoneFound = rows.length > 0 && !shown.length
    this.actions.hidden = !shown.length
  }

  /** An empty office: what to type first, each a click away, and what is there already. */
  private showFirstSteps(office: Office): void {
    const steps: readonly (readonly [table: TableName, words: string])[] = [
      ['Tanks', 'a tank: model, outside sizes, walls, water depth, weight, price'],
      ['Rain', 'a rain station: mean rain of the twelve months'],
      ['Pumps', 'a pump: power, voltage, five points of its curve, price'],
      ['Jobs', 'a job: name, roof area, rain station, people, tank model; then its four runs'],
    ]
    fill(
      this.glance,
      h('h2', {}, 'First steps'),
      h(
        'ol',
        { class: 'first-steps' },
        ...steps.map(([table, words]) => {
          const rows = office.tables[table].length
          const place = { sheet: office.sheets[table], row: FIRST_ROW, column: keyColumn(table) }
          return h(
            'li',
            {},
            rows
              ? h('span', {}, `${table}: ${rows} ${rows === 1 ? 'row' : 'rows'}`)
              : h(
                  'button',
                  { type: 'button', class: 'problem', on: { click: () => (table === 'Jobs' ? this.newJob.start() : void this.guarded(() => this.host.select(place))) } },
                  h('strong', {}, table),
                  `: ${words}`,
                ),
            table === 'Rain' && !rows
              ? h(
                  'button',
                  { type: 'button', class: 'problem', id: 'first-rain', on: { click: () => this.rain.start() } },
                  'or its file of daily rain: the means come from the days',
                )
              : '',
          )
        }),
      ),
      h(
        'p',
        { class: 'empty' },
        'Figures, drawings and verdicts show as soon as the row of Jobs is there; prices can come later. Every other column has a default, said above its heading.',
      ),
    )
  }

  private pick(job: string): void {
    this.job = job
    this.jobRow = this.opened.office?.tables.Jobs.find(({ cells }) => cells.Job === job)?.row
    this.settings.set('job', job)
    this.picker.value = job
    this.showJob()
  }

  /** A row selected in the sheet Jobs is the job to show, where a person asked for that: typing a row and going on must not change the job. */
  private follow(sheet: string, row: number): void {
    const { office } = this.opened
    if (!this.settings.get('follow') || !office || sheet !== office.sheets.Jobs) return
    const job = office.tables.Jobs.find((known) => known.row === row)?.cells.Job
    if (typeof job === 'string' && job !== this.job) this.pick(job)
  }

  private showJob(): void {
    const { office } = this.opened
    const row = office && rowNamed(office, 'Jobs', this.job)
    if (!office || !row) {
      // Before the first job stands there, what is wrong in the tables is said already; prices can come later.
      this.showProblems(office && !office.tables.Jobs.length ? office.problems.filter((problem) => !isUnpriced(problem)) : this.jobless())
      if (!office || office.tables.Jobs.length) fill(this.glance)
      return
    }
    const standing = this.standing.get(this.job) ?? (this.hasTakeoffs() ? undefined : nothingStanding)
    if (!standing) {
      void this.readStanding(this.job, formerNameOf(row))
      return
    }
    const { design, takeoff, problems } = workJob(office, row, standing.kept)
    this.showProblems([...problems, ...this.jobless()])
    this.sayMended()
    this.site.textContent = String(row.cells.Site ?? '')
    this.nameMake(problems.length)
    // A fold that stands open stays so while the job is typed.
    const open = [...this.glance.querySelectorAll('details[open]')].map(({ className, id }) => `${className} ${id}`)
    fill(this.glance, design ? jobView(design, takeoff, this.settings.get('units'), standing) : h('h2', {}, this.job))
    fitLabels(this.glance)
    for (const details of this.glance.querySelectorAll('details')) details.open = open.includes(`${details.className} ${details.id}`)
  }

  /** The button says what it makes. */
  private nameMake(problems: number): void {
    const jobs = this.opened.office?.tables.Jobs.filter(({ cells }) => Boolean(cells.Job)).length ?? 0
    if (this.all.checked && jobs > 1) this.make.textContent = `Make takeoffs for all ${jobs} jobs`
    else this.make.textContent = problems ? `${this.job}: ${problems} ${problems === 1 ? 'problem' : 'problems'}, see above` : `Make takeoff for ${this.job}`
  }

  /** Some job of the workbook was made: what people typed on its sheets is part of its price. */
  private hasTakeoffs(): boolean {
    return [...this.opened.sheetNames.keys()].some((name) => name.startsWith('takeoff'))
  }
  private async readStanding(job: string, former: string | undefined): Promise<void> {
    const { standing } = this
    await this.guarded(async () => void standing.set(job, await standingOf(this.host, job, former)))
    // Where its sheets cannot be read, the words that say so stand beside the job as its row has it.
    if (!standing.has(job)) standing.set(job, nothingStanding)
    if (standing === this.standing && job === this.job) this.showJob()
  }

  /** A problem in a row of Jobs goes as soon as the row is mended; any other with the next making. */
  private stillStands(problem: Problem): boolean {
    const { office } = this.opened
    // What is wrong on the sheets of the job in sight is looked for anew.
    if (problem.sheet.replace(/^\S+ /, '') === this.job) return false
    if (!office || problem.sheet !== office.sheets.Jobs) return true
    const row = office.tables.Jobs.find((known) => known.row === problem.row)
    return row !== undefined && workJob(office, row).problems.some((other) => problemText(other) === problemText(problem))
  }

  /** A row whose own name is wrong is no job that could be picked, and rows of further tables can belong to no job: their problems are shown with every job. */
  private jobless(): readonly Problem[] {
    const { office } = this.opened
    return office ? [...office.problems.filter(({ sheet, column }) => sheet === office.sheets.Jobs && column === 'Job'), ...unusedRows(office)] : []
  }

  private showProblems(all: readonly Problem[]): void {
    const list = distinct([...all, ...this.held])
    this.problems.hidden = !list.length
    // What stands in the job's own row first, then the tables that it draws on, one after another.
    const jobs = this.opened.office?.sheets.Jobs
    const sheets = [...new Set(list.map(({ sheet }) => sheet))].sort((one, other) => Number(other === jobs) - Number(one === jobs))
    fill(
      this.problems,
      h('h2', {}, list.length === 1 ? 'One problem' : `${list.length} problems`),
      ...sheets.map((sheet): HTMLElement => {
        const ofSheet = list.filter((problem) => problem.sheet === sheet)
        const prices = ofSheet.filter(isUnpriced)
        const isMany = prices.length > MANY_PROBLEMS
        const own = isMany ? ofSheet.filter((problem) => !isUnpriced(problem)) : ofSheet
        const items = h('ul', {}, ...(isMany ? [this.missingPrices(prices)] : []), ...own.map((problem) => this.problemItem(problem)))
        if (sheets.length === 1) return items
        // A long list of another sheet than that of the jobs is folded, so that the next sheet stays in sight.
        const summary = `${sheet}: ${ofSheet.length}`
        return own.length > MANY_PROBLEMS && sheet !== jobs
          ? h('details', { class: 'sheet-problems' }, h('summary', {}, summary), items)
          : h('div', {}, h('h3', {}, summary), items)
      }),
    )
  }

  /** Prices that nobody has filled in are one line: which, and the way to the first of them. */
  private missingPrices(prices: readonly Problem[]): HTMLElement {
    const codes = prices.map(({ unpriced }) => unpriced)
    // The list begins with those that carry most of the money.
    const [first] = [...prices].sort((one, other) => one.row - other.row)
    return h(
      'li',
      { class: 'missing-prices' },
      h(
        'details',
        {},
        h('summary', {}, `${prices.length} prices are missing: ${codes.slice(0, 4).join(', ')} and others`),
        h('ul', {}, ...prices.map((problem) => this.problemItem(problem))),
      ),
      h(
        'button',
        { type: 'button', on: { click: () => void this.guarded(() => this.host.select({ sheet: first!.sheet, row: first!.row, column: first!.column })) } },
        `Fill them in on ${first!.sheet}`,
      ),
    )
  }

  private problemItem(problem: Problem): HTMLElement {
    return h(
      'li',
      {},
      h(
        'button',
        {
          type: 'button',
          class: 'problem',
          on: { click: () => void this.guarded(() => this.host.select({ sheet: problem.sheet, row: problem.row, column: problem.column })) },
        },
        h('strong', {}, placeText(problem)),
        refusalText(problem),
      ),
      ...this.headingAnswers(problem),
    )
  }

  /** A heading that nobody knows: a person says what it is, and the sheet Headings remembers. */
  private headingAnswers({ renamed }: Problem): HTMLElement[] {
    if (!renamed) return []
    const answer = (words: string, isOurs: boolean) =>
      h(
        'button',
        { type: 'button', on: { click: () => void this.alone(() => this.guarded(() => nameHeading(this.host, renamed, isOurs, this.made()).then(() => this.refresh()))) } },
        words,
      )
    return [h('p', { class: 'answers' }, answer(`It is ${renamed.field}`, true), ' ', answer('A column of our own', false))]
  }

  private async run(): Promise<void> {
    const { office } = this.opened
    if (!office || this.running) return
    const isAll = this.all.checked
    const jobs = isAll ? office.tables.Jobs.map(({ cells }) => String(cells.Job ?? '')).filter(Boolean) : [this.job]
    this.running = new AbortController()
    this.held = []
    this.standing = new Map()
    this.busy(true)
    await this.guarded(async () => {
      const outcome = await makeTakeoffs(this.host, jobs, {
        flavor: this.flavor.value as Flavor,
        made: this.made(),
        signal: this.running!.signal,
        // Told once; asked again, a person means it.
        mayLose: (words) => {
          const key = words.join('\n')
          const isAgreed = this.toldLost.has(key)
          this.toldLost.add(key)
          return isAgreed
        },
        onProgress: async ({ job, done, of }) => {
          this.progress.max = of
          this.progress.value = done
          if (job) this.say(`Writing ${job}, ${done + 1} of ${of}`)
          if (done === 0) this.status.scrollIntoView({ block: 'nearest' })
          await new Promise((resolve) => setTimeout(resolve))
        },
      })
      this.report(isAll ? { ...outcome, problems: [...outcome.problems, ...this.jobless()] } : outcome)
    })
    this.running = undefined
    this.busy(false)
    // What was typed while it was made is seen now.
    this.lookAgain()
  }

  private report({ made, problems, cancelled, failed }: Outcome): void {
    this.held = distinct(problems)
    this.told = undefined
    // The next press is meant for the job in sight.
    if (made.length && !cancelled && !failed) this.all.checked = false
    this.opened = { ...this.opened, sheetNames: new Map([...this.opened.sheetNames, ...made.flatMap(({ sheets }) => sheets.map((name) => [name.toLowerCase(), name] as const))]) }
    this.lastMade = made.map(({ sheets }) => sheets[0]!)
    this.isGone = false
    this.showJob()
    const words = (pointer: string): string =>
      [
        cancelled ? 'Cancelled.' : '',
        failed ? `${failed.job} was not made: ${failed.words}` : '',
        made.length
          ? `${made.length} ${made.length === 1 ? 'takeoff' : 'takeoffs'} made: ${made.map(({ sheets }) => sheets[0]).join(', ')}, with ${made.length === 1 ? 'its' : 'their'} other sheets.`
          : 'No takeoff was made.',
        pointer,
        ...made.flatMap(({ job, changed }) => (changed ? [`${job}: ${changed}.`] : [])),
        ...made.flatMap(({ notes }) => notes),
      ]
        .filter(Boolean)
        .join(' ')
    const said = words(this.held.length ? `${this.held.length} ${this.held.length === 1 ? 'problem' : 'problems'} above.` : '')
    this.say(said)
    if (this.held.length) this.told = { words: said, whileProblems: true, then: words(''), notMade: made.some(({ job }) => job === this.job) ? undefined : this.job }
    void this.guarded(async () => {
      if (made.length === 1) await this.host.show(made[0]!.sheets[0]!)
      // The host takes the page along to what it shows; on a small screen the words would stand outside of it.
      await new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(resolve)))
      this.status.scrollIntoView({ block: 'nearest' })
    })
  }

  private busy(isBusy: boolean): void {
    this.progress.hidden = !isBusy
    this.cancel.hidden = !isBusy
    // It keeps the focus of who pressed it; pressed again, it does nothing.
    this.make.setAttribute('aria-disabled', String(isBusy))
  }

  private async insert(formula: string): Promise<void> {
    await this.guarded(async () => this.say(`${formula} is in ${await this.host.insert(formula)}.`))
  }

  private async wake(): Promise<void> {
    await this.guarded(async () => {
      const woken = await this.host.wake!()
      this.say(woken ? `${woken} ${woken === 1 ? 'cell' : 'cells'} entered again.` : 'No cell of ours shows #NAME?.')
    })
  }

  /** What writes tables runs once at a time: pressed twice, a button writes one row. */
  private async alone<T>(work: () => Promise<T>): Promise<T | undefined> {
    if (this.isWriting || this.running) return undefined
    this.isWriting = true
    try {
      return await work()
    } finally {
      this.isWriting = false
    }
  }

  private async guarded(work: () => Promise<unknown>): Promise<void> {
    try {
      await work()
    } catch (error) {
      this.say(wordsOf(error))
    }
  }

  private say(words: string): void {
    this.status.textContent = words
  }

  private settingsFold(): HTMLElement {
    const units = h(
      'select',
      { id: 'units' },
      ...(['US', 'metric'] as const).map((name) =>
        h('option', { value: name, selected: this.settings.get('units') === name }, name === 'US' ? 'US (ft, gal, psi)' : 'metric (m, L, bar)'),
      ),
    )
    units.addEventListener('change', () => {
      this.settings.set('units', units.value as Shown)
      this.showJob()
    })
    const follow = h('input', { type: 'checkbox', id: 'follow', checked: this.settings.get('follow') })
    follow.addEventListener('change', () => this.settings.set('follow', follow.checked))
    return h(
      'details',
      { class: 'fold', id: 'settings' },
      h('summary', {}, 'Settings'),
      h('p', {}, h('label', { for: 'units' }, 'Units shown here '), units),
      h('p', {}, follow, h('label', { for: 'follow' }, ' show the job whose row is selected')),
      h('p', { class: 'note' }, 'Cells stay in US units; on Jobs text such as "45 m" may be typed into any number cell.'),
    )
  }
}

const distinct = (list: readonly Problem[]): readonly Problem[] => [...new Map(list.map((problem) => [problemText(problem), problem])).values()]

const wordsOf = (error: unknown): string => (error instanceof Error ? error.message : String(error))
