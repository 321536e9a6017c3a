/** A sheet of a job while it is written: the draft with its job, and where names stand as this sheet points to them. */
import { SheetDraft } from './plan.js'
import type { JobContext } from './sheetKind.js'

export class JobDraft extends SheetDraft {
  readonly from: (name: string) => string

  constructor(
    readonly job: JobContext,
    readonly sheetName: string,
  ) {
    super()
    this.from = job.names.from(sheetName)
  }
}
