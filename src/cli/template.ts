/** Writes a workbook with the office's tables: `template -- OUT.xlsx [--demo]`. */
import { parseArgs } from 'node:util'
import { writeWorkbook } from '../hosts/file.js'
import { templateWorkbook } from '../plan/workbook.js'
import { startingOffice } from '../takeoff/demo.js'
import { fail, made, writeWhole } from './common.js'

async function main(): Promise<void> {
  const { values, positionals } = parseArgs({ allowPositionals: true, options: { demo: { type: 'boolean', default: false } } })
  const [out] = positionals
  if (!out || positionals.length > 1) throw new Error('Usage: npm run -s template -- OUT.xlsx [--demo]')
  writeWhole(out, await writeWorkbook(templateWorkbook(startingOffice(values.demo), made())))
  console.log(`Written: ${out}`)
}

main().catch(fail)
