/** F6 walks between the areas of the page, Shift+F6 back: Tab alone moves within the grid and never leaves it. */
export function walkAreas(areas: readonly (() => HTMLElement | null)[]): void {
  window.addEventListener(
    'keydown',
    (event) => {
      if (event.key !== 'F6') return
      event.preventDefault()
      event.stopPropagation()
      const places = areas.map((find) => find())
      const here = places.findIndex((place) => place?.closest('#grid, #pane, .bar')?.contains(document.activeElement))
      const step = event.shiftKey ? places.length - 1 : 1
      for (let turn = 1; turn <= places.length; turn++) {
        const next = places[(Math.max(here, 0) + turn * step) % places.length]
        // An area may have nothing to hold the focus, such as the pane before a workbook is set up.
        if (next && next.offsetParent !== null) return next.focus()
      }
    },
    true,
  )
}
