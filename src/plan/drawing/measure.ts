import type { JobName } from '../../takeoff/names.js'

/** A field or result with its unit, in the units that the reader chose. */
export type Measure = (name: JobName) => string
