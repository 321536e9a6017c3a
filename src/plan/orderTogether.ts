/** The orders of several jobs together, collected job by job while they are made. */
import type { Takeoff } from '../takeoff/takeoff.js'
import type { Made, SheetPlan } from './plan.js'
import type { Shared } from './pooledLines.js'
import { agreedBefore } from './sheets/amendSheet.js'
import { goodsByHand, linesOrdered, ORDER_PREFIX } from './sheets/orderSheet.js'
import { takeoffColumns } from './sheets/takeoffColumns.js'
import type { JobContext } from './sheetKind.js'
import { openStops } from './stopAnswers.js'
import { ORDER_TOGETHER, togetherSheet, type ByHand } from './togetherSheet.js'

/** What is said where one job of an order was made by itself. */
export const ORDER_OUT_OF_DATE = `${ORDER_TOGETHER} is out of date now: make its jobs in one go for a new one`

/** Collects what jobs order, one after the other; nothing else of them is held. */
export class OrderTogether {
  private readonly shared = new Map<string, Shared>()
  readonly names: string[] = []
  /** A line of each job for who delivers. */
  private readonly sites: string[] = []
  /** Jobs whose quote has no price. */
  private readonly stopped: string[] = []
  /** Jobs with a change order that nobody has signed. */
  private readonly notAgreed: string[] = []
  private readonly byHand: ByHand[] = []
  /** Whether the jobs are what they were when they were made before: an order that stands holds then. */
  isUnchanged = true
  private house: Takeoff['house'] | undefined

  get jobs(): number {
    return this.names.length
  }

  add(job: Pick<JobContext, 'takeoff' | 'earlier' | 'made'>, plan: SheetPlan): void {
    const { takeoff, made, earlier } = job
    const { design, house } = takeoff
    this.isUnchanged &&= earlier.before?.revision === made.revision
    this.names.push(design.name)
    this.sites.push(siteOf(takeoff, made.revision))
    const agreed = agreedBefore(job)
    if (agreed !== undefined) this.notAgreed.push(`${design.name} (agreed: revision ${agreed})`)
    this.house ??= house
    if (openStops(takeoff)) this.stopped.push(design.name)
    for (const { words, quantity, unit } of goodsByHand(takeoff)) this.byHand.push({ words, job: design.name, quantity, unit })
    const rows = new Map(plan.cells.flatMap(({ row, column, value }) => (column === takeoffColumns.code ? [[String(value), row] as const] : [])))
    for (const { code, supplier, description, net, override, order, price = 0, listed, cut, rule } of linesOrdered(takeoff)) {
      const { unit, waste, lot } = rule
      // A price that the rule works out is that of what was chosen, as of a crane.
      const key = [supplier, code, description, unit, waste, lot, rule.price ? listed : ''].join('\n')
      let known = this.shared.get(key)
      if (!known)
        this.shared.set(
          key,
          (known = { code, supplier, description, unit, waste, lot, isPooled: rule.kind === 'material' && !cut, isByLength: unit.toLowerCase() === 'ft' && lot > 1, lines: [] }),
        )
      known.lines.push({ used: override ?? net, order, price, row: rows.get(code)!, sheet: plan.name })
    }
  }

  sheet(made: Made): SheetPlan {
    return togetherSheet({ jobs: this.sites, stopped: this.stopped, notAgreed: this.notAgreed, shared: [...this.shared.values()], byHand: this.byHand, house: this.house! }, made)
  }
}

const siteOf = ({ design, crew }: Takeoff, revision: number): string => {
  const said = (code: string): string => String(crew.cells[`${ORDER_PREFIX}${code}`]?.done ?? '').trim()
  const site = said('SHIP-TO') || String(design.single('Site') ?? '')
  return `${design.name} (revision ${revision})${site ? `: ${site}` : ''}; needed by: ${said('NEEDED-BY') || 'not said on its order'}`
}
