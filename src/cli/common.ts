/** What the commands share: the version, the clock, reading a workbook, and writing a file all or nothing. */
import { existsSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs'
import { dirname, resolve } from 'node:path'
import { openWorkbook, readOfficeTables, readSheet } from '../hosts/file.js'
import { jobSheetNames } from '../plan/jobSheets.js'
import { keptFrom } from '../plan/kept.js'
import type { Made } from '../plan/plan.js'
import type { RawOffice } from '../takeoff/office.js'
import { fieldsOf, tableNames } from '../takeoff/officeTables.js'
import type { Kept } from '../takeoff/takeoff.js'
import packageJson from '../../package.json' with { type: 'json' }

export const made = (): Made => ({ date: new Date().toISOString().slice(0, 10), revision: 1, version: packageJson.version })

/** Writes beside the target and renames, so that an existing file is whole until its successor is. */
export function writeWhole(path: string, bytes: Uint8Array): void {
  const target = resolve(path)
  const beside = `${target}.${process.pid}.part`
  mkdirSync(dirname(target), { recursive: true })
  try {
    writeFileSync(beside, bytes)
    renameSync(beside, target)
  } catch (error) {
    rmSync(beside, { force: true })
    throw error
  }
}

/** The office's tables of a workbook, and what an estimator changed on takeoffs that it already holds. */
export async function readOfficeFile(path: string): Promise<{ raw: RawOffice; kept(job: string): Kept }> {
  let bytes: Uint8Array
  try {
    bytes = readFileSync(path)
  } catch {
    throw new Error(`${path}: the file cannot be read.`)
  }
  const workbook = await openWorkbook(bytes, path)
  const kept = (job: string): Kept => {
    const { takeoff, crew } = jobSheetNames(job)
    return keptFrom(readSheet(workbook, takeoff), readSheet(workbook, crew))
  }
  return { raw: readOfficeTables(workbook, path), kept }
}

/** Refuses to write over a workbook whose sheets, columns or typed-over lines would be gone afterwards. */
export async function refuseLoss(out: string, written: ReadonlySet<string>, raw: RawOffice, input: string | undefined): Promise<void> {
  if (!existsSync(out)) return
  const workbook = await openWorkbook(readFileSync(out), out)
  const own = Object.values(raw).map(({ sheet }) => sheet)
  const isInput = input !== undefined && resolve(input) === resolve(out)
  const lost = workbook.worksheets.map(({ name }) => name).filter((name) => !written.has(name) && !(isInput && own.includes(name)))
  for (const name of isInput ? [] : written) {
    const sheet = (kind: RegExp) => (kind.test(name) ? readSheet(workbook, name) : undefined)
    const { overrides, added, crew } = keptFrom(sheet(/^Takeoff /), sheet(/^Crew /))
    if ([overrides, added, crew.cells, crew.added].some((kept) => Object.keys(kept).length)) lost.push(`what was typed on ${name}`)
  }
  if (isInput) {
    for (const table of tableNames) {
      const strange = raw[table].columns.filter((column) => column && !(column in fieldsOf(table)))
      if (strange.length) lost.push(`the columns ${strange.join(', ')} of ${table}`)
    }
  }
  if (lost.length) throw new Error(`${out}: it exists, and these would be lost: ${lost.join('; ')}. Give another name, or add --replace. Nothing was written.`)
}

export function fail(error: unknown): void {
  console.error(error instanceof Error ? error.message : String(error))
  process.exitCode = 1
}
