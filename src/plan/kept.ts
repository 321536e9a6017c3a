/** Reads back what people wrote on the sheets of a job, so that it stays when they are made again. */
import { nothingKept, type Kept } from '../takeoff/typed.js'
import type { JobSheetNames } from './jobSheets.js'
import type { Rows } from './keptCells.js'
import { bothWritten, fromEntries } from './keptEntries.js'
import { fromDesign } from './keptDesign.js'
import { fromTakeoff } from './keptTakeoff.js'
import { asMadeIn } from './sheets/asMade.js'
import { sheetKinds } from './sheets/index.js'

/** Sheets of a job on which people type, and those that say what it was made as. */
export const sheetsTypedOn = (names: JobSheetNames): readonly string[] => [
  ...new Set([names.takeoff, names.design, names.changes, ...sheetKinds.filter(({ lists, hadEntries }) => lists || hadEntries).map(({ kind }) => names[kind])]),
]

/** What stands on the sheets of a job, given as `read` finds them; what cannot be kept is a problem at its place. */
export function keptFrom(names: JobSheetNames, read: (sheet: string) => Rows | undefined): Kept {
  const [takeoff, design] = [read(names.takeoff), read(names.design)]
  const lines = takeoff ? fromTakeoff(takeoff, names) : nothingKept
  const changes = takeoff && read(names.changes)
  const made = changes && asMadeIn(changes)?.lines
  const written = sheetKinds
    .filter(({ lists, hadEntries }) => lists || hadEntries)
    .map(({ kind, lists }) => {
      const rows = read(names[kind])
      const found = rows ? fromEntries(rows, names[kind], lists !== undefined) : nothingKept
      const brought = kind === 'crew' ? [] : found.crew.added.map(({ text }) => text)
      return brought.length ? { ...found, crew: { ...found.crew, brought } } : found
    })
  const figures = design ? fromDesign(design, names.design) : nothingKept
  return {
    overrides: Object.fromEntries(Object.entries(lines.overrides).map(([code, override]) => [code, made?.has(code) ? { ...override, wasOurs: true as const } : override])),
    added: lines.added,
    figures: figures.figures,
    inputs: figures.inputs,
    crew: written.map(({ crew }) => crew).reduce(bothWritten),
    problems: [...lines.problems, ...figures.problems, ...written.flatMap(({ problems }) => problems)],
  }
}
