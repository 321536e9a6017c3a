/** The version of this build, and when something is made. */
import packageJson from '../package.json'
import { today } from '../src/hosts/today.js'
import type { Made } from '../src/plan/plan.js'

export const made = (): Made => ({ date: today(), revision: 1, version: packageJson.version })
