/** The quote while it is written: its columns, and what its parts ask of the job and of the page. */
import type { Words } from '../../takeoff/template.js'
import { JobDraft } from '../jobDraft.js'
import type { JobContext } from '../sheetKind.js'
import { openStops } from '../stopAnswers.js'
import { liveWords } from '../words.js'

export const quoteColumns = { code: 2, text: 3, done: 4, price: 4, stands: 5 } as const
export const LAST_QUOTE_COLUMN = quoteColumns.price
/** Beside an answer, hidden: what it was given for. */
export const quoteHeadings: Readonly<Record<string, string>> = { code: 'Entry', text: 'To be filled in', done: 'Words', stands: 'Answered for' }

export class QuoteDraft extends JobDraft {
  /** A stop that nobody has answered for: the quote has no price. */
  readonly isOpen = openStops(this.job.takeoff) > 0

  constructor(
    job: JobContext,
    sheetName: string,
    private readonly hasGaps: boolean,
  ) {
    super(job, sheetName)
  }

  gap(): void {
    if (this.hasGaps) this.next()
  }

  bar(text: string): void {
    this.section(LAST_QUOTE_COLUMN, text.toUpperCase())
  }

  /** A bar whose title follows what stands below it. */
  liveBar(row: number, title: string, text: string): void {
    for (let column = quoteColumns.code; column <= LAST_QUOTE_COLUMN; column++)
      this.put(column, 'section', column === quoteColumns.code ? title : null, { row, ...(column === quoteColumns.code ? { formula: text } : {}) })
  }

  headings(): void {
    for (const key of ['code', 'text', 'done', 'stands'] as const) this.put(quoteColumns[key], 'heading', quoteHeadings[key]!)
    this.next()
  }

  sentence(words: Words): void {
    this.put(quoteColumns.text, 'wrapped', this.job.design.words(words), liveWords(words, this.from))
    this.next()
  }

  /** A cell that people fill in. */
  entry(said: string | number | undefined, role: 'entry' | 'siteEntry' = 'entry'): void {
    this.put(quoteColumns.done, role, said ?? null, { format: 'text' })
  }
}
