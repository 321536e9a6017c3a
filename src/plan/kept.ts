/** Reads back what people wrote on the sheets of a job, so that it stays when they are made again. */
import { nothingKept, type Kept } from '../takeoff/takeoff.js'
import type { JobSheetNames } from './jobSheets.js'
import type { Rows } from './keptCells.js'
import { bothWritten, fromCrew } from './keptCrew.js'
import { fromDesign } from './keptDesign.js'
import { fromTakeoff } from './keptTakeoff.js'

/** What stands on the sheets of a job, given as `read` finds them; what cannot be kept is a problem at its place. */
export function keptFrom(names: JobSheetNames, read: (sheet: string) => Rows | undefined): Kept {
  const [takeoff, design, crew, test] = [read(names.takeoff), read(names.design), read(names.crew), read(names.test)]
  const lines = takeoff ? fromTakeoff(takeoff, names) : nothingKept
  const written = crew ? fromCrew(crew, names.crew) : nothingKept
  const tested = test ? fromCrew(test, names.test) : nothingKept
  const figures = design ? fromDesign(design, names.design) : nothingKept
  return {
    overrides: lines.overrides,
    added: lines.added,
    figures: figures.figures,
    inputs: figures.inputs,
    crew: bothWritten(written.crew, tested.crew),
    problems: [...lines.problems, ...figures.problems, ...written.problems, ...tested.problems],
  }
}
