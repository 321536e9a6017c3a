/** The menus above the grid by keyboard: F10 opens the first; in an open one arrows go up and down its lines and on to the next menu. Escape closes it. */
const MENUS = '#grid .o-topbar-menu'
const OPEN = '.o-menu-wrapper'

export function reachMenus(): void {
  // Before the grid, which takes every key for its cells.
  window.addEventListener('keydown', onKey, true)
}

function onKey(event: KeyboardEvent): void {
  const menus = [...document.querySelectorAll<HTMLElement>(MENUS)]
  const open = menus.findIndex((menu) => menu.classList.contains('active'))
  const next = nextMenu(event, open, menus.length)
  if (next === undefined || !menus[next]) return
  event.preventDefault()
  event.stopPropagation()
  menus[next].click()
}

/** The menu that a key leads to; a line with lines of its own opens them by the arrow to the right. */
function nextMenu({ key }: KeyboardEvent, open: number, count: number): number | undefined {
  if (key === 'F10' && open < 0) return 0
  const wrappers = document.querySelectorAll(OPEN).length
  if (open < 0 || wrappers !== 1) return undefined
  if (key === 'ArrowLeft') return (open + count - 1) % count
  const isParent = document.querySelector(`${OPEN} .o-menu-item-active .o-menu-item-root`)
  return key === 'ArrowRight' && !isParent ? (open + 1) % count : undefined
}
