/**
 * The engineering of a job as named results: each a spreadsheet formula over fields, table columns, cell
 * functions and other results. The Design sheet writes them live; the pane and the takeoff evaluate them.
 */
import { cite } from '../../sources.js'
import { trafficKinds } from '../officeTables.js'
import { heightResults } from './heights.js'
import { lineResults } from './line.js'
import { pitResults } from './pit.js'
import { powerResults } from './power.js'
import { pumpResults } from './pump.js'
import { quantityResults } from './quantities.js'
import { office, result, type ResultRule } from './rule.js'
import { safetyResults } from './safety.js'
import { secondTankResults } from './secondTank.js'
import { stormResults } from './storm.js'
import { tankResults } from './tank.js'
import { waterResults } from './water.js'

export type { ResultRule } from './rule.js'

const groups = [
  { title: 'Tank', results: tankResults },
  { title: 'Second model of the row', results: secondTankResults },
  { title: 'Water', results: waterResults },
  { title: 'Layout and pit', results: pitResults },
  { title: 'Heights below the ground at the tanks', results: heightResults },
  { title: 'Inlet and overflow', results: stormResults },
  { title: 'Water line', results: lineResults },
  { title: 'Pump station', results: pumpResults },
  { title: 'Power', results: powerResults },
  { title: 'Flotation, load, lifting, test', results: safetyResults(trafficKinds) },
  { title: 'Quantities', results: quantityResults },
] as const
export const resultGroups: readonly { title: string; results: readonly ResultRule[] }[] = groups
export const results: readonly ResultRule[] = resultGroups.flatMap((group) => group.results)
export type ResultName = (typeof groups)[number]['results'][number]['name']

/** Figures that are found when a job is made and stand as values: each says where it is used. */
export const foundFigures = [
  result('OverflowCount', 'Overflows in use', '', cite('practice', 'the fewest that keep the storm under the lid, as many as inlet ports at least')),
  result('TieShare', 'Share of the storm that passes the tie towards the next tank', '', cite('derivation', 'so that the levels on both sides agree')),
  result('BlockedAtInlet', 'Overflows left on the far tank, one blocked', '', cite('derivation', 'the worse of the two cases')),
  result('BlockedShare', 'Share of the storm that passes the tie then', '', cite('derivation', 'so that the levels on both sides agree')),
  result('RecordLongestShort_days', 'Longest run of days short, on the record', '', cite('derivation', 'daily balance')),
  result('RecordDryMonths', 'Months that end dry in the year of median rain', '', cite('derivation', 'daily balance')),
  result('RecordForStorage_gal', 'Daily balance made for this storage', '', cite('derivation', 'daily balance')),
  result('RecordForInch_gal', 'Daily balance made for this catch from an inch', '', cite('derivation', 'daily balance')),
  result('RecordForYear_gal', 'Daily balance made for this use a year', '', cite('derivation', 'daily balance')),
  result('RecordForFlush_in', 'Daily balance made for this first flush', '', cite('derivation', 'daily balance')),
  result('RecordForEach', 'Daily balance made for a first flush each', '', cite('derivation', 'daily balance')),
  result('RecordForStation', 'Daily balance made of the days of', '', cite('derivation', 'daily balance')),
  result('PumpNote', 'Pumps of the table', '', office),
  result('PumpLeftOut', 'Pump and feed are not of this job: 1 where its row leaves both out', '', office),
  result('ReliefLeftOut', 'The relief valve is not of this job: 1 where its row leaves it out', '', office),
  result('LayoutNote', 'Layouts of drains and ports', '', office),
] as const
