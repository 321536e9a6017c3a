/** Cells of Items that were other ones in 0.10.0: what an untouched row of such an office says, and why it is another one now. */
import type { ChangedItem } from './items040.js'

const inOneRow = (code: string): Readonly<Record<string, ChangedItem>> => ({
  [`${code}{RockSuffix}`]: {
    was: { Code: `${code}{RockSuffix}`, When: null },
    reason: 'rock has a line of its own, so that an entry for the line in soil is not taken for one in rock',
  },
})

export const items100: Readonly<Record<string, ChangedItem>> = { ...inOneRow('DIG'), ...inOneRow('TRENCH-LINE'), ...inOneRow('TRENCH-DRAIN') }
