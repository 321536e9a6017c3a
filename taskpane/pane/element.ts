/** Makes elements without markup in strings: text from cells can never become markup. */
type Child = Node | string | null | undefined | false

export interface Attributes {
  class?: string
  on?: Partial<Record<keyof HTMLElementEventMap, (event: Event) => void>>
  [name: string]: unknown
}

export function h<K extends keyof HTMLElementTagNameMap>(tag: K, attributes?: Attributes, ...children: Child[]): HTMLElementTagNameMap[K]
export function h(tag: string, attributes?: Attributes, ...children: Child[]): HTMLElement
export function h(tag: string, attributes: Attributes = {}, ...children: Child[]): HTMLElement {
  const element = document.createElement(tag)
  for (const [name, value] of Object.entries(attributes)) {
    if (name === 'on') for (const [event, listener] of Object.entries(value as Record<string, EventListener>)) element.addEventListener(event, listener)
    else if (value === true) element.setAttribute(name, '')
    else if (value !== false && value !== undefined && value !== null) element.setAttribute(name, String(value))
  }
  element.append(...children.filter((child): child is Node | string => child !== null && child !== undefined && child !== false))
  return element
}

export function fill(parent: Element, ...children: Child[]): void {
  parent.replaceChildren(...children.filter((child): child is Node | string => child !== null && child !== undefined && child !== false))
}

/** A drawing of our own as a node; its words were escaped where it was made. */
export function svg(markup: string): Element {
  return new DOMParser().parseFromString(markup, 'image/svg+xml').documentElement
}
