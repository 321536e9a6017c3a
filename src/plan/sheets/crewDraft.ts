/** The crew sheet while it is written: its columns and headings, and what its parts ask of the job and of the page. */
import type { Words } from '../../takeoff/template.js'
import { JobDraft } from '../jobDraft.js'
import { liveWords } from '../words.js'

/** Columns of the sheet. What was written is read back by the words of the headings, wherever they stand. */
export const crewColumns = { box: 2, code: 3, text: 4, figure: 5, hold: 6, done: 7 } as const
/** The heading of a column, by what is kept from it. */
export const crewHeadings = { code: 'Step', text: 'What', figure: 'Figure to check', hold: 'Hold for', done: 'Done by, date, remarks' } as const

export class CrewDraft extends JobDraft {
  /** Everything is said in Spanish too. */
  readonly isSpanish = this.job.design.single('CrewLanguage') !== 'English'

  headings(): void {
    for (const name of ['code', 'text', 'figure', 'hold', 'done'] as const) this.put(crewColumns[name], 'heading', crewHeadings[name])
    this.put(crewColumns.box, 'heading', null)
    this.next()
  }

  /** A bar over steps that says once more what stands in which column: no page has nameless ones. */
  headedBar(text: string, spanish?: string): void {
    this.next()
    this.put(crewColumns.box, 'section', null)
    for (const name of ['code', 'text', 'figure', 'hold', 'done'] as const) this.put(crewColumns[name], 'section', name === 'text' ? text.toUpperCase() : crewHeadings[name])
    this.next()
    if (!this.isSpanish || spanish === undefined) return
    this.put(crewColumns.text, 'siteLabel', spanish.toUpperCase())
    this.next()
  }

  bar(text: string, spanish?: string): void {
    this.next()
    const other = this.isSpanish ? spanish?.toUpperCase() : undefined
    for (let column = crewColumns.box; column <= crewColumns.done; column++)
      this.put(column, 'section', column === crewColumns.box ? text.toUpperCase() : column === crewColumns.figure && other ? other : null)
    this.next()
  }

  /** A line of plain words, and the same in Spanish where it is said in both. */
  line(role: 'site' | 'siteOther' | 'hazard', words: string, spanish?: string): void {
    this.put(crewColumns.text, role, words)
    this.next()
    if (!this.isSpanish || spanish === undefined) return
    this.put(crewColumns.text, role === 'hazard' ? role : 'siteOther', spanish)
    this.next()
  }

  /** A sentence that stays live. */
  words(role: 'site' | 'siteOther' | 'siteFact' | 'siteFigure' | 'hazard', words: Words, column: number = crewColumns.text): void {
    this.put(column, role, this.job.design.words(words), liveWords(words, this.from))
  }
}
