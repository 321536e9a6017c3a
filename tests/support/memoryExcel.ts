/**
 * An Excel in memory that is as strict as the real one where others got hurt: nothing may be read before load and sync,
 * value arrays must have the shape of their range, sheet names follow the rules, tables need unique names, protected
 * sheets refuse. It counts syncs and can be told to fail at the n-th.
 */
type Value = string | number | boolean
type Cells = Map<string, Value>

export class ExcelError extends Error {
  constructor(
    readonly code: string,
    message: string,
  ) {
    super(message)
  }
}

interface SheetState {
  name: string
  formulas: Cells
  formats: Map<string, string>
  /** Rules of entry by address, as text. */
  validations: Map<string, string>
  page: Record<string, unknown>
  shapes: ShapeState[]
  /** Columns that are grouped, and those that are hidden. */
  groups: string[]
  hidden: Set<number>
  frozenRows: number
  isProtected: boolean
  visibility: string
  order: number
}
/** A picture or shape on a sheet. */
export interface ShapeState {
  name: string
  type: string
  width: number
  height: number
  left: number
  top: number
}
interface TableState {
  name: string
  /** Its last row holds totals. */
  showTotals?: boolean
  sheet: SheetState
  area: Area
}
interface Area {
  row: number
  column: number
  rows: number
  columns: number
}

const MOST_ROWS = 1_048_576
const MOST_COLUMNS = 16_384
const key = (row: number, column: number) => `${row},${column}`
const columnNumber = (letters: string) => [...letters].reduce((sum, letter) => sum * 26 + letter.charCodeAt(0) - 64, 0)
export const letters = (column: number): string => (column > 0 ? letters(Math.floor((column - 1) / 26)) + String.fromCharCode(65 + ((column - 1) % 26)) : '')

function parseArea(address: string): Area {
  const bare = address.replace(/\$/g, '').replace(/^.*!/, '')
  const cells = /^([A-Z]+)(\d+)(?::([A-Z]+)(\d+))?$/.exec(bare)
  if (cells) {
    const [row, column] = [Number(cells[2]), columnNumber(cells[1]!)]
    return { row, column, rows: Number(cells[4] ?? row) - row + 1, columns: (cells[3] ? columnNumber(cells[3]) : column) - column + 1 }
  }
  const columns = /^([A-Z]+):([A-Z]+)$/.exec(bare)
  if (columns) return { row: 1, column: columnNumber(columns[1]!), rows: MOST_ROWS, columns: columnNumber(columns[2]!) - columnNumber(columns[1]!) + 1 }
  const rows = /^(\d+):(\d+)$/.exec(bare)
  if (rows) return { row: Number(rows[1]), column: 1, rows: Number(rows[2]) - Number(rows[1]) + 1, columns: MOST_COLUMNS }
  throw new ExcelError('InvalidArgument', `No such address: ${address}`)
}

/** An object of the API: its properties can be read only after load and sync. */
function proxyObject<T extends object>(context: MemoryContext, target: T, read: () => Record<string, unknown>): T & { load(names: string): unknown; isNullObject: boolean } {
  let asked = new Set<string>()
  let loaded: Record<string, unknown> | undefined
  return new Proxy(target, {
    get(own, name: string) {
      if (name === 'load') {
        return (names: string | string[]) => {
          const list = Array.isArray(names) ? names : names.split(',').map((part) => part.trim())
          asked = new Set([...asked, ...list])
          context.queue(() => {
            const all = read()
            // What is asked of the things of a collection comes with them.
            const whole = list.some((wanted) => wanted.startsWith('items/')) ? { items: all.items } : {}
            loaded = {
              ...loaded,
              ...whole,
              isNullObject: all.isNullObject === true,
              ...Object.fromEntries(list.map((wanted) => [wanted, all.isNullObject ? undefined : all[wanted]])),
            }
          })
        }
      }
      if (name in own) return Reflect.get(own, name) as unknown
      if (name === 'then') return undefined
      if (!loaded || !(name in loaded)) throw new ExcelError('PropertyNotLoaded', `The property '${name}' is not available: load it and sync first.`)
      return loaded[name]
    },
    set(own, name: string, value: unknown) {
      if (!(`set_${name}` in own)) throw new ExcelError('InvalidArgument', `The property '${name}' cannot be set.`)
      ;(own as Record<string, (value: unknown) => void>)[`set_${name}`]!(value)
      return true
    },
  }) as T & { load(names: string): unknown; isNullObject: boolean }
}

const PAPERS = ['Letter', 'Legal', 'A3', 'A4', 'A5']
const isText = (most: number) => (value: unknown) => typeof value === 'string' && value.length <= most
const isMargin = (value: unknown) => typeof value === 'number' && value >= 0 && value < 700
/** What the page set-up takes, as the interface documents it. */
const pageTakes: Readonly<Record<string, (value: unknown) => boolean>> = {
  orientation: (value) => value === 'Portrait' || value === 'Landscape',
  paperSize: (value) => PAPERS.includes(String(value)),
  zoom: (value) => typeof value === 'object' && Object.keys(value as object).every((key_) => ['scale', 'horizontalFitToPages', 'verticalFitToPages'].includes(key_)),
  leftMargin: isMargin,
  rightMargin: isMargin,
  topMargin: isMargin,
  bottomMargin: isMargin,
  headerMargin: isMargin,
  footerMargin: isMargin,
  leftFooter: isText(255),
  centerFooter: isText(255),
  rightFooter: isText(255),
}
/** A rule of entry is of one kind, a list that is written out is short and its entries hold no comma, words are short. */
function checkRule(rule: unknown): void {
  const kinds = Object.keys(rule as object)
  if (kinds.length !== 1 || !['list', 'decimal', 'wholeNumber', 'custom'].includes(kinds[0]!)) fail('InvalidArgument', `A rule of entry of ${kinds.join(' and ')}.`)
  const { source, formula1, formula2 } = (rule as Record<string, { source?: unknown; formula1?: unknown; formula2?: unknown }>)[kinds[0]!]!
  if (kinds[0] === 'list' && (typeof source !== 'string' || source === '' || (!source.startsWith('=') && (source.length > 255 || /,\s/.test(source)))))
    fail('InvalidArgument', `A list of entries that Excel does not take: ${String(source)}`)
  if (kinds[0] === 'decimal' && !(Number(formula1) <= Number(formula2))) fail('InvalidArgument', `A span from ${String(formula1)} to ${String(formula2)}.`)
}

/** What a set property costs in a request: assumed, not measured by itself. Object and property of a height of rows are about 516 in Microsoft's own script; setters of one look share an object. */
const CALL_BYTES = 250
/** Takes any look and remembers none of it; each property set is a call. */
const anything = (called: () => void): unknown =>
  new Proxy(() => undefined, {
    get: (_own, name) => (name === 'then' ? undefined : anything(called)),
    set: () => {
      called()
      return true
    },
    apply: () => anything(called),
  })

export class MemoryContext {
  private readonly pending: (() => void)[] = []
  constructor(readonly book: MemoryExcel) {}
  queue(work: () => void): void {
    this.pending.push(work)
  }
  sync = async (): Promise<void> => {
    this.book.syncs++
    this.book.largest = Math.max(this.book.largest, this.book.request)
    this.book.request = 0
    const failing = this.book.failAtSync === this.book.syncs || (this.book.failAlways && this.book.syncs > (this.book.failAtSync ?? Infinity))
    // A batch that fails has done half of its work: the hardest case.
    const works = this.pending.splice(0)
    const until = failing ? Math.floor(works.length / 2) : works.length
    for (const work of works.slice(0, until)) work()
    if (failing) throw new ExcelError('GeneralException', 'The batch failed, as told.')
  }
  application = proxyObject(
    this,
    {
      suspendApiCalculationUntilNextSync: () => this.queue(() => void this.book.suspended++),
      calculate: (type: string) => (type === 'Recalculate' || type === 'Full' ? this.queue(() => void this.book.calculated++) : fail('InvalidArgument', type)),
    },
    () => ({ calculationMode: this.book.calculationMode }),
  )
  get workbook() {
    const { book } = this
    return {
      worksheets: proxyObject(
        this,
        {
          getItem: (name: string) => this.sheetProxy(() => book.sheet(name) ?? fail('ItemNotFound', `No sheet ${name}.`)),
          getItemOrNullObject: (name: string) => this.sheetProxy(() => book.sheet(name)),
          add: (name: string) => {
            this.queue(() => book.addSheet(name))
            return this.sheetProxy(() => book.sheet(name))
          },
          onChanged: { add: () => undefined },
        },
        // What was loaded of the items stays what it was then.
        () => ({
          items: book.sheets.map(({ name, visibility, isProtected }) => ({
            ...(this.sheetProxy(() => book.sheet(name)) as object),
            name,
            visibility,
            protection: { protected: isProtected, load: () => undefined },
          })),
        }),
      ),
      names: proxyObject(
        this,
        {
          getItem: (name: string) => this.nameProxy(name),
          add: (name: string, formula: string) => {
            if (!/^[\p{L}_\\][\p{L}\p{N}_.]*$/u.test(name) || name.length > 255) fail('InvalidArgument', `No name may be ${name}.`)
            if (!formula.startsWith('=')) fail('InvalidArgument', `No formula: ${formula}`)
            this.queue(() => (book.names.has(name.toLowerCase()) ? fail('ItemAlreadyExists', `There is a name ${name}.`) : void book.names.set(name.toLowerCase(), formula)))
          },
        },
        () => ({ 'items/name': true, 'items/formula': true, items: [...book.names].map(([name, formula]) => ({ name, formula })) }),
      ),
      tables: { getItemOrNullObject: (name: string) => this.tableProxy(() => book.tables.find((table) => table.name.toLowerCase() === name.toLowerCase())) },
      // Sheets of a file come with their names and what is drawn on them.
      insertWorksheetsFromBase64: (base64: string, { sheetNamesToInsert }: { sheetNamesToInsert: readonly string[] }) =>
        this.queue(() => {
          const drawn = book.readDrawings?.(base64, sheetNamesToInsert) ?? fail('UnsupportedOperation', 'This Excel takes in no file.')
          for (const [name, pictures] of drawn) book.addSheet(name).shapes = pictures.map((picture) => ({ name: picture, type: 'Group', width: 200, height: 100, left: 0, top: 0 }))
        }),
      getActiveCell: () =>
        this.rangeProxy(
          () => book.sheet(book.active.sheet),
          () => parseArea(book.active.cell),
        ),
      onSelectionChanged: { add: () => undefined },
    }
  }

  private nameProxy(name: string): unknown {
    const { names } = this.book
    const at = name.toLowerCase()
    return proxyObject(
      this,
      {
        delete: () => this.queue(() => void (names.delete(at) || fail('ItemNotFound', `No name ${name}.`))),
        set_formula: (formula: unknown) => this.queue(() => void names.set(at, String(formula))),
      },
      () => ({ name, formula: names.get(at) ?? fail('ItemNotFound', `No name ${name}.`) }),
    )
  }

  private tableProxy(find: () => TableState | undefined): unknown {
    const { book } = this
    const sheet = () => find()?.sheet
    const target = {
      worksheet: this.sheetProxy(sheet),
      getRange: () => this.rangeProxy(sheet, () => find()!.area),
      rows: {
        add: (_at: unknown, values: unknown[][]) =>
          this.queue(() => {
            const table = find() ?? fail('ItemNotFound', 'The table does not exist.')
            const { row, column, rows, columns } = table.area
            if (values.length !== 1 || values[0]!.length !== columns) fail('InvalidArgument', 'The row has not the width of the table.')
            if (table.sheet.isProtected || book.isReadOnly) fail('AccessDenied', 'The sheet is protected.')
            table.area = { row, column, rows: rows + 1, columns }
            values[0]!.forEach((value, x) => {
              if (value !== null && value !== '') table.sheet.formulas.set(key(row + rows, column + x), value as Value)
            })
          }),
      },
      // The heading row stays where it is; what the table no longer covers stays as plain cells.
      resize: (range: { area(): Area }) =>
        this.queue(() => {
          const table = find() ?? fail('ItemNotFound', 'The table does not exist.')
          const area = range.area()
          if (area.row !== table.area.row || area.rows < 2) fail('InvalidArgument', 'A table keeps its heading row and has a row at least.')
          table.area = area
        }),
    }
    return proxyObject(this, target, () => (find() ? { name: find()!.name, showTotals: find()!.showTotals ?? false, showHeaders: true } : { isNullObject: true }))
  }

  private sheetProxy(find: () => SheetState | undefined): unknown {
    const { book } = this
    const must = () => find() ?? fail('ItemNotFound', 'The sheet does not exist.')
    const target = {
      getRange: (address?: string) => this.rangeProxy(find, () => (address ? parseArea(address) : { row: 1, column: 1, rows: MOST_ROWS, columns: MOST_COLUMNS })),
      getRanges: (addresses: string) => {
        if (addresses.length > 8192) throw new ExcelError('InvalidArgument', 'The address is too long.')
        addresses.split(',').forEach(parseArea)
        book.request += addresses.length
        return { format: anything(() => (book.request += CALL_BYTES)) }
      },
      getUsedRange: () => this.rangeProxy(find, () => usedArea(must())),
      getUsedRangeOrNullObject: () =>
        this.rangeProxy(
          () => (find()?.formulas.size ? find() : undefined),
          () => usedArea(must()),
        ),
      copy: () => {
        let made: SheetState | undefined
        this.queue(() => {
          const from = must()
          made = book.addSheet(`${from.name} (2)`.slice(0, 31))
          made.formulas = new Map(from.formulas)
          made.formats = new Map(from.formats)
          made.validations = new Map(from.validations)
        })
        return this.sheetProxy(() => made)
      },
      delete: () => this.queue(() => book.deleteSheet(must())),
      activate: () => this.queue(() => void (book.active.sheet = must().name)),
      protection: proxyObject(this, {}, () => (find() ? { protected: find()!.isProtected } : { isNullObject: true })),
      horizontalPageBreaks: {
        add: (at: string) => this.queue(() => void (must().page.breaks = [...((must().page.breaks as number[] | undefined) ?? []), parseArea(at).row])),
        removePageBreaks: () => this.queue(() => void (must().page.breaks = [])),
      },
      freezePanes: {
        freezeAt: (area: string) => {
          const { row, column, rows } = parseArea(area)
          if (row !== 1 || column !== 1) fail('InvalidArgument', `Nothing stands still at ${area}`)
          this.queue(() => void (must().frozenRows = rows))
        },
        freezeRows: (rows: number) => {
          if (!Number.isInteger(rows) || rows < 0) fail('InvalidArgument', `No ${rows} rows can stand still.`)
          this.queue(() => void (must().frozenRows = rows))
        },
      },
      pageLayout: this.pageProxy(must),
      shapes: proxyObject(this, {}, () => ({ items: (find()?.shapes ?? []).map((shape) => this.shapeProxy(must, shape)) })),
      tables: {
        add: (address: string) => {
          let made: TableState | undefined
          this.queue(() => (made = book.addTable(must(), parseArea(address))))
          return proxyObject(
            this,
            { set_name: (name: unknown) => this.queue(() => book.renameTable(made!, String(name))), set_showFilterButton: () => undefined, set_showBandedRows: () => undefined },
            () => ({ name: made!.name }),
          )
        },
      },
      state: must,
      set_name: (name: unknown) => this.queue(() => book.rename(must(), String(name))),
      set_visibility: (visibility: unknown) => this.queue(() => void (must().visibility = String(visibility))),
      set_showGridlines: () => undefined,
    }
    return proxyObject(this, target, () => (find() ? { name: find()!.name, visibility: find()!.visibility } : { isNullObject: true }))
  }

  private shapeProxy(must: () => SheetState, shape: ShapeState): unknown {
    const set = <K extends keyof ShapeState>(name: K) => ({ [`set_${name}`]: (value: ShapeState[K]) => this.queue(() => void (shape[name] = value)) })
    const target = {
      ...set('name'),
      ...set('width'),
      ...set('height'),
      ...set('left'),
      ...set('top'),
      set_lockAspectRatio: () => undefined,

      get name() {
        return shape.name
      },
      get type() {
        return shape.type
      },
      get width() {
        return shape.width
      },
      get height() {
        return shape.height
      },
      delete: () => this.queue(() => void (must().shapes = must().shapes.filter((known) => known !== shape))),
      copyTo: (sheet: { state(): SheetState }) => {
        const copy = { ...shape }
        this.queue(() => void sheet.state().shapes.push(copy))
        return this.shapeProxy(() => sheet.state(), copy)
      },
    }
    return proxyObject(this, target, () => ({}))
  }

  private pageProxy(must: () => SheetState): unknown {
    const put = (name: string, value: unknown): boolean => {
      this.book.request += CALL_BYTES
      if (!pageTakes[name]?.(value)) fail('InvalidArgument', `The page takes no ${name} ${JSON.stringify(value)}.`)
      this.queue(() => (this.book.refusesPages ? fail('GeneralException', 'No printer.') : void (must().page[name] = value)))
      return true
    }
    const footers = new Proxy({}, { set: (_own, name: string, value: unknown) => put(name, value) })
    return new Proxy(
      {
        headersFooters: { defaultForAllPages: footers },
        setPrintArea: (area: string) => {
          const { row, column } = parseArea(area)
          if (row !== 1 || column !== 1) fail('InvalidArgument', `No area: ${area}`)
          this.queue(() => void (must().page.printArea = area))
        },
        setPrintTitleColumns: (columns: string) => {
          if (!/^\$[A-Z]+:\$[A-Z]+$/.test(columns)) fail('InvalidArgument', `No columns: ${columns}`)
        },
        setPrintTitleRows: (rows: string) => {
          if (!/^\$\d+:\$\d+$/.test(rows)) fail('InvalidArgument', `No rows: ${rows}`)
          this.queue(() => void (must().page.titleRows = rows))
        },
      },
      { set: (_own, name: string, value: unknown) => put(name, value) },
    )
  }

  private rangeProxy(find: () => SheetState | undefined, area: () => Area): unknown {
    const { book } = this
    const must = () => {
      const sheet = find() ?? fail('ItemNotFound', 'The sheet does not exist.')
      return sheet
    }
    const writable = () => {
      const sheet = must()
      if (sheet.isProtected || book.isReadOnly) fail('AccessDenied', 'The sheet is protected.')
      return sheet
    }
    const put = (values: unknown, into: (sheet: SheetState) => Map<string, unknown>) => {
      book.request += JSON.stringify(values).length
      this.queue(() => {
        const { row, column, rows, columns } = area()
        // A single value is set to all cells of the range.
        const block = Array.isArray(values) ? (values as unknown[][]) : Array.from({ length: rows }, () => Array<unknown>(columns).fill(values))
        if (!Array.isArray(block) || block.length !== rows || block.some((line) => !Array.isArray(line) || line.length !== columns))
          fail('InvalidArgument', `The array has not the shape of the range, ${rows} by ${columns}.`)
        const cells = into(writable())
        block.forEach((line, y) =>
          line.forEach((value, x) => (value === '' || value === null ? cells.delete(key(row + y, column + x)) : cells.set(key(row + y, column + x), value))),
        )
      })
    }
    const target = {
      worksheet: {
        ...(find as unknown as object),
        load: () => undefined,
        get name() {
          return must().name
        },
      },
      format: anything(() => (book.request += CALL_BYTES)),
      dataValidation: proxyObject(
        this,
        {
          set_rule: (rule: unknown) => {
            checkRule(rule)
            this.queue(() => {
              const { row, column, rows, columns } = area()
              writable().validations.set(`${row},${column} ${rows}x${columns}`, JSON.stringify(rule))
            })
          },
          set_errorAlert: (alert: unknown) => {
            const { title, message, style } = alert as { title: string; message: string; style: string }
            if (title.length > 32 || message.length > 224 || !['Stop', 'Warning', 'Information'].includes(style))
              fail('InvalidArgument', `An alert that Excel does not take: ${title}, ${style}`)
          },
        },
        () => ({}),
      ),
      clear: () =>
        this.queue(() => {
          const { row, column, rows, columns } = area()
          const sheet = writable()
          for (const cells of [sheet.formulas, sheet.formats] as Map<string, unknown>[])
            for (const at of [...cells.keys()]) {
              const [y, x] = at.split(',').map(Number) as [number, number]
              if (y >= row && y < row + rows && x >= column && x < column + columns) cells.delete(at)
            }
          if (rows === MOST_ROWS) sheet.validations.clear()
        }),
      copyFrom: (source: { area(): Area; sheet(): SheetState }) =>
        this.queue(() => {
          const from = source.area()
          const to = area()
          const move = <T>(of: Map<string, T>, into: Map<string, T>) => {
            for (const [at, value] of of) {
              const [y, x] = at.split(',').map(Number) as [number, number]
              into.set(key(to.row + y - from.row, to.column + x - from.column), value)
            }
          }
          move(source.sheet().formulas, must().formulas)
          move(source.sheet().formats, must().formats)
          // Excel copies the rules of entry with the cells.
          for (const [at, rule] of source.sheet().validations) must().validations.set(at, rule)
        }),
      getCell: (y: number, x: number) =>
        this.rangeProxy(find, () => {
          const { row, column } = area()
          return { row: row + y, column: column + x, rows: 1, columns: 1 }
        }),
      group: (by: string) => this.queue(() => void (must().groups = [...must().groups, `${by} ${letters(area().column)}:${letters(area().column + area().columns - 1)}`])),
      hideGroupDetails: () =>
        this.queue(() => {
          if (!must().groups.length) fail('InvalidOperation', 'There is no group.')
          for (let at = area().column; at < area().column + area().columns; at++) must().hidden.add(at)
        }),
      set_columnHidden: (isHidden: unknown) =>
        this.queue(() => {
          const { hidden } = must()
          for (let at = area().column; at < area().column + area().columns; at++) {
            if (isHidden) hidden.add(at)
            else hidden.delete(at)
          }
        }),
      select: () => this.queue(() => void (book.active.cell = `${letters(area().column)}${area().row}`)),
      area,
      sheet: must,
      set_formulas: (values: unknown) => put(values, (sheet) => sheet.formulas),
      set_numberFormat: (values: unknown) => put(values, (sheet) => sheet.formats),
    }
    return proxyObject(this, target, () => {
      const sheet = find()
      if (!sheet) return { isNullObject: true }
      const { row, column, rows, columns } = area()
      if (rows * columns > 5_000_000) fail('ResponsePayloadSizeLimitExceeded', 'Too many cells to read.')
      const block = (show: (value: Value) => Value) =>
        Array.from({ length: rows }, (_, y) => Array.from({ length: columns }, (_unused, x) => show(sheet.formulas.get(key(row + y, column + x)) ?? '')))
      return {
        formulas: block((value) => value),
        values: block((value) => book.valueOf(value)),
        rowIndex: row - 1,
        columnIndex: column - 1,
        address: `${sheet.name}!${letters(column)}${row}`,
        // As if every cell were as wide and high as a new one.
        left: (column - 1) * 48,
        top: (row - 1) * 15,
      }
    })
  }
}

function fail(code: string, message: string): never {
  throw new ExcelError(code, message)
}

function usedArea(sheet: SheetState): Area {
  const places = [...sheet.formulas.keys()].map((at) => at.split(',').map(Number) as [number, number])
  if (!places.length) return { row: 1, column: 1, rows: 1, columns: 1 }
  const [rows, columns] = [places.map(([row]) => row), places.map(([, column]) => column)]
  const [row, column] = [Math.min(...rows), Math.min(...columns)]
  return { row, column, rows: Math.max(...rows) - row + 1, columns: Math.max(...columns) - column + 1 }
}

export class MemoryExcel {
  syncs = 0
  /** Bytes of the values in the request that is being put together, and of the largest one sent. */
  request = 0
  largest = 0
  suspended = 0
  calculated = 0
  calculationMode = 'Automatic'
  /** Whether the page set-up of sheets is refused, as on a machine without a printer. */
  refusesPages = false
  failAtSync: number | undefined
  /** Every sync after that one fails too. */
  failAlways = false
  isReadOnly = false
  active = { sheet: 'Sheet1', cell: 'A1' }
  sheets: SheetState[] = []
  tables: TableState[] = []
  /** What is drawn on the sheets of a file, by their names; a test that inserts files brings it. */
  readDrawings: ((base64: string, sheets: readonly string[]) => readonly (readonly [sheet: string, pictures: readonly string[]])[]) | undefined
  /** Names of the workbook, in small letters, with their formulas. */
  names = new Map<string, string>()
  /** What a formula would show; the tests give it the plan's own results. */
  results = new Map<string, Value>()

  constructor() {
    this.addSheet('Sheet1')
  }

  run = async <T>(work: (context: never) => Promise<T>): Promise<T> => work(new MemoryContext(this) as never)

  sheet(name: string): SheetState | undefined {
    return this.sheets.find((sheet) => sheet.name.toLowerCase() === name.toLowerCase())
  }
  addSheet(name: string): SheetState {
    this.checkName(name)
    const sheet: SheetState = {
      name,
      formulas: new Map(),
      formats: new Map(),
      validations: new Map(),
      page: {},
      shapes: [],
      groups: [],
      hidden: new Set(),
      frozenRows: 0,
      isProtected: false,
      visibility: 'Visible',
      order: this.sheets.length,
    }
    this.sheets.push(sheet)
    return sheet
  }
  deleteSheet(sheet: SheetState): void {
    this.sheets = this.sheets.filter((known) => known !== sheet)
    this.tables = this.tables.filter((table) => table.sheet !== sheet)
  }
  rename(sheet: SheetState, name: string): void {
    this.checkName(name)
    sheet.name = name
  }
  private checkName(name: string): void {
    if (!name || name.length > 31 || /[[\]:*?/\\]/.test(name) || /^'|'$/.test(name)) fail('InvalidArgument', `No sheet may be called ${name}.`)
    if (this.sheet(name)) fail('ItemAlreadyExists', `There is a sheet ${name}.`)
  }
  addTable(sheet: SheetState, area: Area): TableState {
    const overlaps = this.tables.some((table) => table.sheet === sheet && table.area.row < area.row + area.rows && area.row < table.area.row + table.area.rows)
    if (overlaps) fail('InvalidArgument', 'A table may not overlap another.')
    const table = { name: `Table${this.tables.length + 1}`, sheet, area }
    this.tables.push(table)
    return table
  }
  renameTable(table: TableState, name: string): void {
    if (this.tables.some((other) => other !== table && other.name.toLowerCase() === name.toLowerCase())) fail('ItemAlreadyExists', `There is a table ${name}.`)
    table.name = name
  }
  valueOf(formula: Value): Value {
    if (typeof formula !== 'string') return formula
    if (formula.startsWith("'")) return formula.slice(1)
    return formula.startsWith('=') ? (this.results.get(formula) ?? 0) : formula
  }
  /** Everything a person could see, for comparing before and after. */
  picture(): string {
    const sorted = (cells: ReadonlyMap<string, unknown>) => [...cells].sort(([one], [other]) => (one < other ? -1 : 1))
    return JSON.stringify([
      ...this.sheets.map((sheet) => [sheet.name, sheet.visibility, sorted(sheet.formulas), sorted(sheet.formats), sorted(sheet.validations)]),
      ...sorted(this.names),
    ])
  }
}
