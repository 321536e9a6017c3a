/** Every function by its TypeScript name, and what is needed to read about them. */
export * from './calc/index.js'
export { calculationOf } from './calc/callByName.js'
export { callAny as callByName } from './calc/callWorking.js'
export { InputError } from './errors.js'
export { convert, readAs, type UnitName } from './units.js'
export { bibliography, citationText } from './sources.js'
export { tables } from './tables/index.js'
