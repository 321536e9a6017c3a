/** Daily rain from a file into the workbook: the file, the station it belongs to, and what it holds. */
import { textOf } from '../../src/hosts/textOf.js'
import { rainUnits, type RainUnit } from '../../src/takeoff/rainDays.js'
import type { RainChoice } from '../../src/takeoff/withRain.js'
import { fill, h } from './element.js'

/** Stands for a station that the sheet Rain has not yet; no name is empty. */
const NEW = ''
const unitWords: Readonly<Record<RainUnit, string>> = { in: 'inches', mm: 'millimeters', tenths: 'tenths of a millimeter' }

export interface RainFold {
  element: HTMLElement
  /** Opens it at the file. */
  start(): void
  /** Shows the stations of the office. */
  show(stations: readonly string[]): void
}

export function rainFold(add: (text: string, file: string, choice: RainChoice) => Promise<void>): RainFold {
  const file = h('input', { type: 'file', id: 'rain-file', accept: '.csv,.dly,.txt' })
  const station = h('select', { id: 'rain-station' })
  const name = h('input', { type: 'text', id: 'rain-new', class: 'search', autocomplete: 'off', placeholder: 'its name, as jobs will have it' })
  const unit = h('select', { id: 'rain-unit' }, h('option', { value: '' }, 'as the file says'), ...rainUnits.map((name) => h('option', { value: name }, unitWords[name])))
  const id = h('input', { type: 'text', id: 'rain-id', class: 'search', autocomplete: 'off', placeholder: 'only where the file has several' })
  const button = h('button', { type: 'button', class: 'button add-rain', on: { click: () => void start() } }, 'Add the days')
  /** The station that the days went to last: a new one is known when the office is read again. */
  let wanted = ''
  async function start(): Promise<void> {
    const chosen = file.files?.[0]
    if (!chosen) return file.focus()
    const unitWanted = unit.value as RainUnit | ''
    const isNew = station.value === NEW
    if (isNew && !name.value.trim()) return name.focus()
    wanted = isNew ? name.value.trim() : station.value
    await add(textOf(new Uint8Array(await chosen.arrayBuffer())), chosen.name, {
      ...(isNew ? { station: name.value.trim(), isNew } : { station: station.value }),
      ...(unitWanted ? { unit: unitWanted } : {}),
      ...(id.value.trim() ? { id: id.value.trim() } : {}),
    })
  }
  const line = (words: string, control: HTMLElement) => h('p', {}, h('label', { for: control.id }, `${words} `), control)
  const newName = line('Name of the new station; its means of the months come from the days', name)
  const showName = () => void (newName.hidden = station.value !== NEW)
  station.addEventListener('change', showName)
  const element = h(
    'details',
    { class: 'fold', id: 'rain' },
    h('summary', {}, 'Add daily rain…'),
    h(
      'p',
      { class: 'note' },
      'By-station CSV or .dly of a weather service, or a CSV with a date and a rain column. With days the storage verdict stands on dry spells, not on means.',
    ),
    line('File', file),
    line('Station of the sheet Rain', station),
    newName,
    line('Unit', unit),
    line('Station in the file', id),
    button,
  )
  return {
    element,
    start() {
      element.open = true
      element.scrollIntoView({ block: 'nearest' })
      file.focus()
    },
    show(stations) {
      const before = stations.includes(wanted) ? wanted : station.value
      wanted = ''
      fill(
        station,
        ...stations.map((known) => h('option', { value: known, selected: known === before }, known)),
        h('option', { value: NEW, selected: before === NEW && stations.length > 0 }, 'a new station'),
      )
      showName()
    },
  }
}
