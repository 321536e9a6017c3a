/** Writes a workbook with the office's tables: `template -- OUT.xlsx [--demo] [--replace]`; or adds daily rain to one that is there. */
import { existsSync } from 'node:fs'
import { textOf } from '../hosts/textOf.js'
import { FileHost } from '../hosts/fileHost.js'
import { addRainDays } from '../hosts/session.js'
import { makeTemplate, sourceOf } from '../hosts/fileSession.js'
import { startingOffice } from '../takeoff/demo.js'
import { rainUnits } from '../takeoff/rainDays.js'
import { updateOffice } from '../hosts/updateOffice.js'
import { argumentsOf, bytesOf, fail, helpAsked, made, stateOf, writeWhole } from './common.js'

const usage =
  'npm run -s template -- OUT.xlsx [--demo] [--replace] | OFFICE.xlsx --update [--only CODE …] | OFFICE.xlsx --rain FILE --station NAME | --new-station NAME [--unit in|mm|tenths] [--id ID]'
const help = `Writes a workbook with the tables of an office, or adds daily rain to one that is there.

  ${usage}

  --demo           with the demo's jobs, tanks, pumps and prices in it
  --replace        write over a file that is there
  --update         bring an office made by an older version up to date: its untouched rules, new columns and tables
  --only CODE      of the rows, this one alone; may be given several times
  --rain FILE      rain of days: a weather service's by-station CSV or .dly, or a CSV with a date and a rain column
  --station NAME   the station of the sheet Rain that it belongs to
  --new-station NAME  a station that is not there yet: it gets a row, its mean months from the days
  --unit UNIT      in, mm or tenths (of a millimeter): of the rain column, where its heading does not say
  --id ID          the station in the file, where it has several

Example: npm run -s template -- OFFICE.xlsx --rain rain.csv --station "Alder Reach" --unit mm`

/** What the command does, and the options that each reads. */
const readBy: Readonly<Record<'new' | 'update' | 'rain', readonly string[]>> = {
  new: ['demo', 'replace'],
  update: ['update', 'only'],
  rain: ['rain', 'station', 'new-station', 'unit', 'id'],
}
const workWords = { new: 'A new workbook', update: '--update', rain: '--rain' } as const

async function main(): Promise<void> {
  if (helpAsked(help)) return
  const { values, positionals } = argumentsOf(
    {
      demo: { type: 'boolean' },
      replace: { type: 'boolean' },
      update: { type: 'boolean' },
      only: { type: 'string', multiple: true },
      rain: { type: 'string' },
      station: { type: 'string' },
      'new-station': { type: 'string' },
      unit: { type: 'string' },
      id: { type: 'string' },
    },
    usage,
  )
  const [out] = positionals
  if (!out || positionals.length > 1) throw new Error(`One workbook. Usage: ${usage}`)
  const work = values.rain !== undefined ? 'rain' : values.update ? 'update' : 'new'
  const idle = Object.keys(values).filter((option) => !readBy[work].includes(option))
  if (idle.length)
    throw new Error(`${workWords[work]} takes ${readBy[work].map((option) => `--${option}`).join(', ')}; got ${idle.map((option) => `--${option}`).join(', ')}. Usage: ${usage}`)
  const stood = stateOf(out)
  if (values.rain !== undefined) {
    const station = values['new-station'] ?? values.station
    if (!station || (values.station && values['new-station']))
      throw new Error('--station: the name of a station of the sheet Rain; or --new-station: the name of one that it has not yet. One of the two.')
    const unit = rainUnits.find((known) => known === values.unit)
    if (values.unit !== undefined && !unit) throw new Error(`--unit takes ${rainUnits.join(', ')}; got ${values.unit}.`)
    const host = new FileHost(sourceOf(bytesOf(out), out))
    const words = await addRainDays(host, textOf(bytesOf(values.rain)), values.rain, { station, unit, id: values.id, isNew: values['new-station'] !== undefined }, made())
    writeWhole(out, host.bytes, stood)
    console.log(`${station}: ${words}`)
    console.log(`Written: ${out}`)
    return
  }
  if (values.update) {
    const { bytes, update, tables } = updateOffice(sourceOf(bytesOf(out), out), made(), values.only)
    for (const { table, key, reason, row, touchesLife } of update.changes)
      console.log(`${touchesLife ? 'safety  ' : ''}${table} ${key}${row === undefined ? ', added' : `, row ${row}`}: ${reason}`)
    for (const { table, names } of update.columns) console.log(`${table}: new columns at the end: ${names.join(', ')}`)
    if (tables.length) console.log(`New sheets: ${tables.join(', ')}`)
    for (const own of update.own) console.log(`Left as the office has it: ${own}`)
    if (!update.changes.length && !update.columns.length && !tables.length) return void console.log(`Nothing to bring up to date. ${out} stays as it is.`)
    writeWhole(out, bytes, stood)
    console.log(`Written: ${out}`)
    return
  }
  if (!/\.xlsx$/i.test(out)) throw new Error(`A name that ends in .xlsx; got ${out}.`)
  if (existsSync(out) && !values.replace) throw new Error(`${out}: it exists and stays as it is. Give another name, or add --replace.`)
  writeWhole(out, makeTemplate(startingOffice(values.demo ?? false), made()), stood)
  console.log(`Written: ${out}`)
}

main().catch(fail)
