/** Plugins of the grid, changed before the first model is made: what they are reached by, said once. */

export interface GridCommand {
  type: string
}
/** What every plugin has. */
export interface GridPlugin {
  handle(command: GridCommand): void
  beforeHandle(command: GridCommand): void
  dispatch(type: string, payload: object): unknown
  history: { update(...path: unknown[]): void }
}
export interface PluginRegistry {
  get(name: string): unknown
  replace(name: string, plugin: unknown): unknown
}

/** A method that takes the place of the grid's own, which it is given. */
type Method<P> = (plugin: P, before: (...args: unknown[]) => unknown, argument: unknown) => unknown

/** Takes methods of a plugin over. */
export function changed<P extends GridPlugin>(registry: PluginRegistry, name: string, methods: { readonly [Name in keyof P & string]?: Method<P> }): void {
  const Known = registry.get(name) as new (...args: unknown[]) => object
  class Changed extends Known {}
  for (const [method, work] of Object.entries(methods) as [string, Method<P>][]) {
    const before = (Known.prototype as Record<string, (...args: unknown[]) => unknown>)[method]!
    Object.defineProperty(Changed.prototype, method, {
      value(this: P, argument: unknown) {
        return work(this, before.bind(this), argument)
      },
    })
  }
  registry.replace(name, Changed)
}
