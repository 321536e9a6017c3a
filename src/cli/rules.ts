/** Holds every rule of our own to the check of names, functions, texts and units. Runs by itself before the first takeoff after a change, and before the pages are built. */
import { ownRuleProblems } from '../plan/ownRules.js'

const { looked, problems } = ownRuleProblems()
for (const problem of problems) console.error(`Rule refused: ${problem}`)
if (problems.length) {
  console.error(`${problems.length} of ${looked} rules are refused; no job runs on them.`)
  process.exitCode = 1
} else console.log(`${looked} rules looked at, none refused.`)
