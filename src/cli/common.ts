/** What the commands share: the version, the clock, reading a workbook, and writing a file all or nothing. */
import { mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs'
import { dirname, resolve } from 'node:path'
import { openWorkbook, readOfficeTables, readSheet } from '../hosts/file.js'
import { jobSheetNames } from '../plan/jobSheets.js'
import { keptFrom } from '../plan/kept.js'
import type { Made } from '../plan/plan.js'
import type { RawOffice } from '../takeoff/office.js'
import type { Kept } from '../takeoff/takeoff.js'
import packageJson from '../../package.json' with { type: 'json' }

export const made = (): Made => ({ date: new Date().toISOString().slice(0, 10), revision: 1, version: packageJson.version })

/** Writes beside the target and renames, so that an existing file is whole until its successor is. */
export function writeWhole(path: string, bytes: Uint8Array): void {
  const target = resolve(path)
  const beside = `${target}.${process.pid}.part`
  try {
    mkdirSync(dirname(target), { recursive: true })
    writeFileSync(beside, bytes)
    renameSync(beside, target)
  } catch (error) {
    rmSync(beside, { force: true })
    throw new Error(`${path}: no file can be written there (${(error as NodeJS.ErrnoException).code}).`)
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
  const kept = (job: string): Kept => keptFrom(jobSheetNames(job), (sheet) => readSheet(workbook, sheet))
  return { raw: readOfficeTables(workbook, path), kept }
}

export function fail(error: unknown): void {
  console.error(error instanceof Error ? error.message : String(error))
  process.exitCode = 1
}

/** Prints the help where it is asked for. */
export function helpAsked(help: string): boolean {
  if (!process.argv.slice(2).some((word) => word === '--help' || word === '-h')) return false
  console.log(help)
  return true
}
