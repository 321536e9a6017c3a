/** A command of our own for the grid: many writes as one step, evaluated once at its end and undone as one. */
import { lockedSheetAllowedCommands, registries, UIPlugin } from '@odoo/o-spreadsheet'
import { registerFill } from './gridFill.js'
import { registerQuick } from './gridQuick.js'
import { HostError } from './host.js'

const TOGETHER = 'CISTERN_TOGETHER'

class TogetherPlugin extends UIPlugin {
  override handle(command: { type: string; work?: () => void }): void {
    if (command.type === TOGETHER) command.work!()
  }
}

let registered = false

/** Must be called before a model is made. */
export function registerTogether(): void {
  if (registered) return
  registered = true
  // It writes to sheets of its own choice: that the sheet in view is locked says nothing of them.
  lockedSheetAllowedCommands.add(TOGETHER as never)
  registerFill()
  registerQuick()
  registries.featurePluginRegistry.add('cistern_together', TogetherPlugin as never)
}

/** Runs writes as one step of the model. What the work throws is thrown here, after the model has closed the step. */
export function together(model: { dispatch(type: never, payload: never): unknown }, work: () => void): void {
  let failure: { error: unknown } | undefined
  const guarded = () => {
    try {
      work()
    } catch (error) {
      failure = { error }
    }
  }
  const result = model.dispatch(TOGETHER as never, { work: guarded } as never) as { isSuccessful: boolean; reasons: readonly unknown[] }
  if (!result.isSuccessful) throw new HostError(`The grid takes no changes now (${result.reasons.join(', ')}). Nothing was changed.`)
  if (failure) throw failure.error
}
