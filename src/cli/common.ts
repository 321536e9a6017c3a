/** What the commands share: the version, the clock, reading a workbook, and writing a file all or nothing. */
import {
  chmodSync,
  closeSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  openSync,
  readdirSync,
  readFileSync,
  readlinkSync,
  readSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
  writeSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { parseArgs, type ParseArgsConfig } from 'node:util'
import { setFlagsFromString } from 'node:v8'
import { basename, dirname, join, resolve } from 'node:path'
import type { Spool } from '../hosts/xlsx/zip.js'
import { today } from '../hosts/today.js'
import type { Made } from '../plan/plan.js'
import packageJson from '../../package.json' with { type: 'json' }

export const made = (): Made => ({ date: today(), revision: 1, version: packageJson.version })

/** Of many jobs node clears what is done with when it holds a quarter more than what is in use, not three times as much. */
const HEAP_GROWS_PERCENT = 25

/** Packed sheets of many jobs, in a file of their own until the workbook is written; it goes when the command ends. */
export function fileSpool(): Spool {
  setFlagsFromString(`--heap-growing-percent=${HEAP_GROWS_PERCENT}`)
  const folder = mkdtempSync(join(tmpdir(), 'cistern-sheet-'))
  const file = openSync(join(folder, 'parts'), 'w+')
  process.on('exit', () => {
    closeSync(file)
    rmSync(folder, { recursive: true, force: true })
  })
  let end = 0
  return {
    put(bytes) {
      const [from, length] = [end, bytes.length]
      writeSync(file, bytes, 0, length, from)
      end += length
      return () => {
        const back = new Uint8Array(length)
        readSync(file, back, 0, length, from)
        return back
      }
    },
  }
}

/** Where a file is or will be, whatever links lead there. */
const placeOf = (path: string): string => (existsSync(path) ? realpathSync(path) : linkedTo(resolve(path)))
/** The same file by another name or through a link. */
export const isSameFile = (one: string, other: string): boolean => placeOf(one) === placeOf(other)

/** When a file was written last, and how long it is; nothing where there is none. */
export function stateOf(path: string): string {
  try {
    const state = statSync(path, { throwIfNoEntry: false })
    return state ? `${state.mtimeMs} ${state.size}` : ''
  } catch {
    // What cannot be looked at cannot be written either, and is told then.
    return ''
  }
}

/** Writes beside the target and renames, so that an existing file is whole until its successor is. Its mode and a link to it stay. `was` is its state when it was read. */
export function writeWhole(path: string, content: Uint8Array | Iterable<Uint8Array>, was: string): void {
  const named = resolve(path)
  const target = placeOf(path)
  // The program that has it open may know it by the name of the link.
  const openIn = [named, target].flatMap((one) => [`.~lock.${basename(one)}#`, `~$${basename(one)}`].filter((lock) => existsSync(join(dirname(one), lock))))[0]
  if (openIn)
    throw new Error(
      `${path}: it is open in a spreadsheet program (${openIn} stands beside it): close it there, then try again. Where none is open any more, delete ${openIn}. Nothing was written.`,
    )
  if (existsSync(target) && (statSync(target).mode & 0o200) === 0) throw new Error(`${path}: it may only be read: change that, or give another name. Nothing was written.`)
  const beside = `${target}.${process.pid}.part`
  try {
    mkdirSync(dirname(target), { recursive: true })
    const file = openSync(beside, 'w')
    try {
      for (const piece of content instanceof Uint8Array ? [content] : content) writeFileSync(file, piece)
    } finally {
      closeSync(file)
    }
    if (existsSync(target)) chmodSync(beside, statSync(target).mode)
    if (stateOf(path) !== was) throw new ChangedMeanwhile(`${path}: it was changed while this was made: make it once more, so that nothing of it is lost. Nothing was written.`)
    renameSync(beside, target)
    tidyBeside(target)
  } catch (error) {
    if (existsSync(beside)) rmSync(beside)
    const code = (error as NodeJS.ErrnoException).code
    if (error instanceof ChangedMeanwhile || code === undefined) throw error
    throw new Error(`${path}: no file can be written there (${code}).`)
  }
}

/** No run takes a day: what is older was left by one that was ended while it wrote. */
const LEFT_MS = 86_400_000
function tidyBeside(target: string): void {
  const isPart = (name: string) => name.startsWith(`${basename(target)}.`) && /^\d+\.part$/.test(name.slice(basename(target).length + 1))
  try {
    for (const name of readdirSync(dirname(target)).filter(isPart)) {
      const part = join(dirname(target), name)
      if (Date.now() - statSync(part).mtimeMs > LEFT_MS) rmSync(part)
    }
  } catch {
    // The file is written; a folder that may not be read or tidied is no reason to say that it is not.
  }
}

/** Somebody else wrote the file between its reading and its writing. */
class ChangedMeanwhile extends Error {}

/** A link to a file that is not there yet: the file is made where it points to. */
function linkedTo(path: string): string {
  try {
    return resolve(dirname(path), readlinkSync(path))
  } catch {
    return path
  }
}

/** Why a file cannot be read, in words. */
const whyNot = (code: string | undefined): string => {
  if (code === 'ENOENT') return 'there is no such file'
  if (code === 'EISDIR') return 'it is a folder and no file'
  if (code === 'EACCES' || code === 'EPERM') return 'this user may not read it'
  return `the file cannot be read (${code})`
}

export function bytesOf(path: string): Uint8Array {
  try {
    return readFileSync(path)
  } catch (error) {
    throw new Error(`${path}: ${whyNot((error as NodeJS.ErrnoException).code)}.`)
  }
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

/** The options and names of a command; an option that is not there is answered with those that are. */
export function argumentsOf<const O extends NonNullable<ParseArgsConfig['options']>>(options: O, usage: string) {
  const known = [...Object.keys(options), 'help']
  const given = new Set<string>()
  for (const word of process.argv.slice(2)) {
    if (word === '--') break
    const name = /^--?([A-Za-z][\w-]*)/.exec(word)?.[1]
    if (name !== undefined && !known.includes(name))
      throw new Error(`No option ${word.split('=')[0]!}; there are ${known.map((option) => `--${option}`).join(', ')}. Usage: ${usage}`)
    if (name !== undefined && given.has(name) && !options[name]?.multiple) throw new Error(`--${name}: once; it came again. Usage: ${usage}`)
    if (name !== undefined) given.add(name)
  }
  try {
    return parseArgs({ allowPositionals: true, options })
  } catch (error) {
    // Node says so in words of its own.
    const name = /Option '(?:-\w, )?(--[\w-]+)/.exec((error as Error).message)?.[1]
    if (name === undefined) throw error
    throw new Error(`${name}: ${options[name.slice(2)]?.type === 'boolean' ? 'it takes nothing behind it' : 'say what behind it'}. Usage: ${usage}`)
  }
}
