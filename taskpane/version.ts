/** The version of this build, and when something is made. */
import packageJson from '../package.json'
import type { Made } from '../src/plan/plan.js'

export const made = (): Made => ({ date: new Date().toISOString().slice(0, 10), revision: 1, version: packageJson.version })
