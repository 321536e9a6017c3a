/** What the owner does with a finished cistern, and when: the care plan of the hand-over. */
import { cite, type Citation } from '../sources.js'
import type { Design } from './design.js'
import { practice } from './results/rule.js'
import type { Words } from './template.js'

export interface CareTask {
  /** Stays with the task for good: what was written beside it is kept under it. */
  code: string
  task: Words
  /** Months in which it is due, 1 to 12. */
  months: readonly number[]
  when: string
  source: Citation
}
const everyMonth = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12] as const
const quarters = [3, 6, 9, 12] as const
const task = (code: string, words: Words, months: readonly number[], source: Citation, when = 'TRUE'): CareTask => ({ code, task: words, months, when, source })

export const careTasks: readonly CareTask[] = [
  task(
    'K1',
    'Look that every lid is closed and locked, and that nothing drives or stands on the tanks (the maker allows: {TrafficOver}).',
    everyMonth,
    practice('lids looked at each month'),
  ),
  task('K2', 'Clean gutters and roof outlets.', quarters, cite('twdb', 'maintenance of gutters and filters')),
  task('K14', 'Clean the inlet filter.', everyMonth, practice('each month; after storms of leaves more often'), 'FilterShare<1'),
  task(
    'K3',
    'Drain and rinse the first-wash diverter, after each rain where it does not drain itself: {FirstWash_gal} of first wash.',
    everyMonth,
    cite('twdb', 'first-flush diverters drained after each rain'),
    'FirstWash_gal>0',
  ),
  task('K4', 'Look at the overflow and its outfall: flap free, screen whole, stone in place.', [3, 9], practice('before and after the wet season')),
  task('K5', 'Count pump starts for a day: more than {StartsAllowed_per_day} means a lost air charge or a leak.', [4], cite('starts'), 'ByGravity=0'),
  task(
    'K6',
    [
      ['HouseBelow_ft>0', 'Pressure tank, pump off, the valve at the house closed and a tap behind it open until nothing runs: its air charge is {Charge_psi}.'],
      ['', 'Pressure tank, pump off and a tap open until nothing runs: its air charge is {Charge_psi}.'],
    ],
    [4],
    practice('air charge 2 psi under the cut-in'),
    'ByGravity=0',
  ),
  task('K7', 'Change filter cartridges and clean the lamp’s sleeve, as their maker says.', quarters, practice('each three months'), 'TreatmentLoss_psi>0'),
  task('K8', 'Change the lamp.', [10], practice('a year of hours'), 'TreatmentLoss_psi>0'),
  task('K9', 'Have treated water tested for bacteria by a laboratory.', [5, 11], practice('twice a year; the health authority decides'), 'TreatmentLoss_psi>0'),
  task('K10', 'Have the backflow preventer tested by a certified tester.', [5], practice('yearly; the water supplier decides'), 'Backflow="preventer"'),
  task(
    'K11',
    [
      [
        'TankCount=1',
        'Look through the lid, from outside, when the water is low: settled matter over {SiltMost_in:1} is pumped out by a firm with an entry permit, before it reaches the intake. Nobody climbs in.',
      ],
      [
        '',
        'Look through the lid, from outside, when the water is low: settled matter over {SiltMost_in:1} is pumped out by a firm with an entry permit, before it reaches the intake and the ties. Nobody climbs in.',
      ],
    ],
    [8],
    practice('at low water, once a year'),
  ),
  task(
    'K12',
    [
      ['HouseBelow_ft>0', 'Before frost: lid insulated; what lies behind the closed valve at the house and can freeze ({FrostDepth_in} of frost) is emptied at its lowest tap.'],
      ['', 'Before frost: lid insulated; what of the line lies where it can freeze ({FrostDepth_in} of frost) is shut off and emptied at its lowest tap.'],
    ],
    [10],
    practice('before the first frost'),
    'FrostDepth_in>0',
  ),
  task(
    'K13',
    'After work in the tanks or a bad test: {Bleach_pint} of {BleachStrength%} bleach to {Storage_gal}, mixed, a day of contact, then neutralized with up to {Neutralizer_lb:1} of vitamin C or run to waste. From outside, goggles and gloves.',
    [],
    cite('oregon', '50 mg/L for tanks'),
  ),
]
export const careOf = (design: Design): readonly CareTask[] => careTasks.filter(({ when }) => design.holds(when))
