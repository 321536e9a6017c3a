/** What the quote says in sentences: what is offered, and what is not in its price. */
import { CABLE, isMeant } from '../../takeoff/chosenItems.js'
import type { Takeoff } from '../../takeoff/takeoff.js'
import type { Words } from '../../takeoff/template.js'

const TREATMENT = 'TREATMENT'

/** A sentence of what was built or is offered, by codes of the sheet Items; one that ends in a brace stands for all that begin so. */
export interface Part {
  words: Words
  /** Codes that have a line, and those that have none. */
  bought?: readonly string[]
  leftOut?: readonly string[]
  /** Codes that the job does not leave out, whatever the office calls them now; and those of which it leaves out one or more. */
  kept?: readonly string[]
  out?: readonly string[]
}
/** One sentence of the parts that hold. */
export interface Parts {
  joined: readonly (Part & { words: string })[]
}
/** The sentences that hold for what this job buys. */
export function partsOf(list: readonly (Part | Parts)[], { lines, without }: Pick<Takeoff, 'lines' | 'without'>): readonly Words[] {
  const has = (code: string) => lines.some(({ rule }) => rule.key === code)
  const isOut = (code: string) => without.some((key) => isMeant(code, key))
  const holds = ({ bought = [], leftOut = [], kept = [], out }: Part) => bought.every(has) && !leftOut.some(has) && !kept.some(isOut) && (out === undefined || out.some(isOut))
  return list.flatMap((one): Words[] => {
    if ('words' in one) return holds(one) ? [one.words] : []
    const words = one.joined.filter(holds).map((part) => part.words)
    return words.length ? [`${[words.slice(0, -1).join(', '), words.at(-1)!].filter(Boolean).join(' and ')}.`] : []
  })
}

/** Pipe and conduit of any size, and what tanks are set in. */
export const LINE = 'PE-{'
const CONDUIT = 'CONDUIT-{'
const PIT = ['DIG', 'STONE-BED', 'BACKFILL'] as const

export const scope: readonly (Part | Parts)[] = [
  {
    words: [
      ['TankCount=1', 'A precast concrete tank holding {Storage_gal}, set on a stone bed in a pit {PitDepth_ft} deep and covered again.'],
      ['TRUE', '{TankCount} precast concrete tanks, together holding {Storage_gal}, set on a stone bed in one pit {PitDepth_ft} deep, connected low and covered again.'],
    ],
    kept: ['TANK', ...PIT],
  },
  {
    words: [
      ['TankCount=1', 'A precast concrete tank holding {Storage_gal}.'],
      ['', '{TankCount} precast concrete tanks, together holding {Storage_gal}, connected low.'],
    ],
    kept: ['TANK'],
    out: PIT,
  },
  {
    words: [
      ['TankCount=1', 'A stone bed in a pit {PitDepth_ft} deep for a tank of others holding {Storage_gal}, which is covered again.'],
      ['', 'A stone bed in one pit {PitDepth_ft} deep for {TankCount} tanks of others, together holding {Storage_gal}, which are connected low and covered again.'],
    ],
    kept: PIT,
    out: ['TANK'],
  },
  {
    words: [
      ['TankCount=1', 'Rain of {CatchmentArea_ft2} of roof by a buried drain into the tank, and an overflow to the outfall.'],
      ['TRUE', 'Rain of {CatchmentArea_ft2} of roof by a buried drain into the tanks, and an overflow to the outfall.'],
    ],
    kept: ['DRAIN-{'],
  },
  {
    joined: [
      { words: 'A submersible pump for {HouseFlow_gpm} at {HousePressure_psi} with pressure tank', bought: ['PUMP', 'PRESSURE-TANK'] },
      { words: 'A submersible pump for {HouseFlow_gpm} at {HousePressure_psi}', bought: ['PUMP'], leftOut: ['PRESSURE-TANK'] },
      { words: '{LineLength_ft} of buried water line', kept: [LINE] },
      { words: '{FeederLength_ft} of power feed with conduit', kept: [CABLE, CONDUIT] },
      { words: '{FeederLength_ft} of power feed', kept: [CABLE], out: [CONDUIT] },
    ],
  },
  {
    words: [
      ['ByGravity=1', 'No pump: the water runs to the house by gravity, {HouseFlow_gpm} at {HousePressure_psi} there.'],
      ['', 'A pump of others, for {HouseFlow_gpm} at {HousePressure_psi} in the house.'],
    ],
    kept: [LINE],
    leftOut: ['PUMP'],
  },
  {
    words: [
      ['RecordYears>0', 'By days of rain at {RainStation} about {Reliability%:0} of {DailyUse_gal_per_day} asked for; a dry year gives less.'],
      [
        'TRUE',
        'By mean months of rain at {RainStation} about {SizingShare%:0} of the water asked for ({DailyUse_gal_per_day}); means hide dry spells: days of rain can show a good deal less, and a dry year gives less again.',
      ],
    ],
  },
  {
    words: 'Every tank tested under a vacuum of {TestVacuum_inHg} before it is covered; line, pump and switch tested, the record handed over.',
    bought: ['VACUUM', 'PUMP'],
  },
  { words: 'Every tank tested under a vacuum of {TestVacuum_inHg} before it is covered; the line tested, the record handed over.', bought: ['VACUUM'], leftOut: ['PUMP'] },
  { words: 'A treatment set of filters and lamp at the house; tested and kept up, or the water is not for drinking.', bought: [TREATMENT] },
]
/** Whether water for drinking is offered. */
export const isTreated = ({ lines }: Takeoff) => lines.some(({ code }) => code === TREATMENT)
/** What is set inside the house, by the codes that the job buys. */
const houseParts: readonly (readonly [code: string, words: string])[] = [
  ['PRESSURE-TANK', 'pressure tank with relief valve'],
  ['REDUCER', 'reducing valve'],
  [TREATMENT, 'treatment set'],
  ['BACKFLOW', 'backflow preventer'],
  ['AIR-GAP', 'air-gap fill'],
  ['HOUSE-VALVE', 'house valve'],
]
function inHouse({ lines }: Takeoff): string {
  const found = houseParts.filter(([code]) => lines.some((line) => line.code === code)).map(([, words]) => words)
  const all = [...(lines.some(({ rule }) => rule.key.startsWith(LINE)) ? ['the end of the line'] : []), ...found]
  return all.length ? ` other than ${all.join(', ')}, which ${all.length > 1 ? 'are' : 'is'} in it` : ''
}
export const notInPrice = (takeoff: Takeoff): readonly string[] => [
  `${takeoff.design.single('SoilClass') === 'rock' ? 'Buried things that nobody showed' : 'Rock, buried things that nobody showed'}, bad ground, water in the pit beyond what is listed.`,
  `Work inside the house${inHouse(takeoff)}${isTreated(takeoff) ? '' : '; treatment for drinking: the stored water is not drinkable without it'}.`,
  'Gutters, downspouts; roads, trees, lawns beyond the dig; delay by weather or an authority.',
]
