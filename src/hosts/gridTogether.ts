/** A command of our own for the grid: many writes as one step, evaluated once at its end and undone as one. */
import { registries, UIPlugin } from '@odoo/o-spreadsheet'

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
  model.dispatch(TOGETHER as never, { work: guarded } as never)
  if (failure) throw failure.error
}
