/**
 * The grid's user-interface library looks at the DOM while it loads, although the engine never draws.
 * These empty classes let it load in Node. Import this file before the grid, and only outside a browser.
 */
class EmptyNode {
  get firstChild(): null {
    return null
  }
  get nextSibling(): null {
    return null
  }
  get textContent(): string {
    return ''
  }
  set textContent(_text: string) {
    // Nothing is ever drawn.
  }
}
class EmptyCharacterData extends EmptyNode {
  get data(): string {
    return ''
  }
  set data(_text: string) {
    // Nothing is ever drawn.
  }
}
class EmptyElement extends EmptyNode {
  style = {}
  getBoundingClientRect(): object {
    return {}
  }
}
class Empty {}

const empty: Record<string, unknown> = {
  Node: EmptyNode,
  Element: EmptyElement,
  HTMLElement: EmptyElement,
  CharacterData: EmptyCharacterData,
  DOMTokenList: Empty,
  Text: EmptyCharacterData,
  Comment: EmptyCharacterData,
  ShadowRoot: Empty,
  document: {
    readyState: 'loading',
    createElement: () => new EmptyElement(),
    addEventListener: () => undefined,
    documentElement: new EmptyElement(),
    implementation: { createDocument: () => ({ createElement: () => new EmptyElement() }) },
  },
  window: globalThis,
  requestAnimationFrame: () => 0,
}
for (const [name, value] of Object.entries(empty)) if (!(name in globalThis)) Object.defineProperty(globalThis, name, { value, configurable: true, writable: true })

/** The grid was built for Node 22, which has Object.groupBy; Node 20 has not. */
const objects = Object as unknown as { groupBy?: <T>(items: Iterable<T>, key: (item: T) => string) => Record<string, T[]> }
objects.groupBy ??= (items, key) => {
  const groups: Record<string, (typeof items extends Iterable<infer T> ? T : never)[]> = Object.create(null) as never
  for (const item of items) (groups[key(item)] ??= []).push(item)
  return groups
}
