/** Cells of Items that were other ones in 0.18.0: what an untouched row of such an office says, and why it is another one now. */
import type { ChangedItem } from './items040.js'

const trench = 'One trench for both: the longer of {WaterLineRun_ft} of line and {PowerRun_ft} of feed'
const noFeed = 'where gravity serves the house there is no feed to dig for'
const joints = 'without a pump the line has two joints less'

export const items180: Readonly<Record<string, ChangedItem>> = {
  'TRENCH-LINE': { was: { Description: 'Trench for water line and power feed', Why: trench }, reason: noFeed },
  'TRENCH-LINE-ROCK': { was: { Description: 'Trench for water line and power feed, in rock', Why: trench }, reason: noFeed },
  TAPE: {
    was: {
      Description: 'Warning tape with a wire that is found from above, over line and cable',
      Quantity: 'WaterLineRun_ft+PowerRun_ft',
      Why: '{WaterLineRun_ft} of line and {PowerRun_ft} of feed, 12 in above each',
    },
    reason: noFeed,
  },
  CLAMP: { was: { Quantity: '2*InsertJoints', Why: 'Two on each of {InsertJoints|joint|joints}, screws where a driver reaches them' }, reason: joints },
  'CTS-STIFFENER': { was: { Quantity: 'InsertJoints', Why: 'One in each of {InsertJoints|joint|joints}' }, reason: joints },
}
