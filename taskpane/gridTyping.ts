/**
 * The grid's editor drops the old text of a cell only when the next frame is drawn. A second key pressed before that lands in the
 * old text: "30" typed over 2 becomes 302. Here the first key shows at once, as the editor does itself a frame later.
 */
import { components } from '@odoo/o-spreadsheet'

interface Editor {
  props: { composerStore: { editionMode: string; composerSelection: { start: number; end: number } } }
  contentHelper: { selectRange(start: number, end: number): void; removeAll(): void }
  processContent(): void
}
type EditorClass = { prototype: Editor & { onInput(event: InputEvent): void; onCompositionStart(): void } }

export function typeOverAtOnce(): void {
  const { Composer } = (components.Grid as unknown as { components: { GridComposer: { components: { Composer: EditorClass } } } }).components.GridComposer.components
  const { onInput, onCompositionStart } = Composer.prototype
  Composer.prototype.onCompositionStart = function () {
    if (this.props.composerStore.editionMode === 'inactive') this.contentHelper.removeAll()
    onCompositionStart.call(this)
  }
  Composer.prototype.onInput = function (event) {
    const { composerStore } = this.props
    const starts = composerStore.editionMode === 'inactive'
    onInput.call(this, event)
    if (!starts) return
    this.processContent()
    this.contentHelper.selectRange(composerStore.composerSelection.start, composerStore.composerSelection.end)
  }
}
