/** Papers of jobs alone, to be handed out: their values in a file of their own, and nothing behind them. */
import { withoutPrices } from '../plan/togetherSheet.js'
import type { SheetPlan } from '../plan/plan.js'
import { sheetKinds, type SheetKindName } from '../plan/sheets/index.js'
import { placesInWords } from '../takeoff/fields.js'
import { WorkbookError } from './file.js'
import { FileHost } from './fileHost.js'
import type { Source } from './fileSession.js'
import type { Writing } from './host.js'
import { logoOn } from './xlsx/logo.js'
import { newBook } from './xlsx/newBook.js'
import { SheetWriter } from './xlsx/writeSheet.js'

export class PapersHost extends FileHost {
  private readonly papers = newBook()
  private jobs = 0

  constructor(
    source: Source,
    private readonly kinds: readonly SheetKindName[],
  ) {
    super(source)
  }

  override writing(): Promise<Writing> {
    const { kinds } = this
    const writer = new SheetWriter(this.papers, logoOn(this.workbook.book, this.office.raw.House.sheet))
    const valuesAlone = (plan: SheetPlan): SheetPlan => ({ ...plan, cells: plan.cells.map(({ formula: _, ...cell }) => cell) })
    return Promise.resolve({
      write: (plans) => {
        const job = plans.find(({ kind }) => kind === 'takeoff')
        const wanted = plans.filter(({ kind }) => kinds.includes(kind as SheetKindName))
        if (job && wanted.length < kinds.length)
          return Promise.reject(new WorkbookError(`${job.footer}: there is no change order, for nothing was changed since it was first made. Nothing was written.`))
        this.jobs += plans.filter(({ kind }) => kind === 'takeoff').length
        // Goods of several jobs are ordered at once.
        const order = kinds.includes('order') && this.jobs > 1 ? plans.filter(({ kind }) => kind === 'together').map(withoutPrices) : []
        writer.put([...wanted, ...order].map(valuesAlone))
        return Promise.resolve()
      },
      end: () => {
        writer.finish()
        return Promise.resolve([])
      },
    })
  }

  /** What was typed elsewhere stays where it is. */
  override refusal(places: readonly string[]): string | undefined {
    const prefixes = sheetKinds.filter(({ kind }) => this.kinds.includes(kind)).map(({ prefix }) => prefix)
    const lost = places.filter((place) => prefixes.some((prefix) => place.startsWith(prefix)))
    return lost.length
      ? `${this.name}: what was typed on the sheets is on no paper alone: ${placesInWords(lost)}. Move them into an entry, or add --replace to go without them.`
      : undefined
  }

  override get bytes(): Uint8Array {
    return this.papers.bytes()
  }
  override pieces(): Iterable<Uint8Array> {
    return this.papers.pieces()
  }
}
