/** Writes a workbook with the office's tables: `template -- OUT.xlsx [--demo] [--replace]`. */
import { existsSync } from 'node:fs'
import { parseArgs } from 'node:util'
import { writeWorkbook } from '../hosts/file.js'
import { templateWorkbook } from '../plan/workbook.js'
import { startingOffice } from '../takeoff/demo.js'
import { fail, made, writeWhole } from './common.js'

async function main(): Promise<void> {
  const { values, positionals } = parseArgs({ allowPositionals: true, options: { demo: { type: 'boolean', default: false }, replace: { type: 'boolean' } } })
  const [out] = positionals
  if (!out || positionals.length > 1) throw new Error('Usage: npm run -s template -- OUT.xlsx [--demo] [--replace]')
  if (existsSync(out) && !values.replace) throw new Error(`${out}: it exists and stays as it is. Give another name, or add --replace.`)
  writeWhole(out, await writeWorkbook(templateWorkbook(startingOffice(values.demo), made())))
  console.log(`Written: ${out}`)
}

main().catch(fail)
