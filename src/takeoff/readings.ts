/** Readings of the test record beside the log of the vacuum test: what is measured, what is wanted, and what the reading says. */
import { cite, type Citation } from '../sources.js'
import { practice } from './results/rule.js'

export const readingParts = ['Readings at line and first fill', 'Disinfection and backflow'] as const
export type ReadingPart = (typeof readingParts)[number]

export interface ReadingRule {
  /** Stays with the reading for good: what was written is kept under it. */
  code: string
  label: string
  /** What earlier versions called it: on their sheets nobody wrote that over ours. */
  earlier: readonly string[]
  /** Unit of the reading; empty where a number or name is written. */
  unit: string
  wanted: string
  when: string
  /** Gives "pass", "check" or "stop" over `reading`; nothing while none stands there. Empty: it is written down and not judged. */
  verdict: string
  /** Where its limits are from. */
  sources: readonly Citation[]
  /** Under which heading it stands. */
  part: ReadingPart
  span?: readonly [least: number, most: number]
}
const DISINFECTION = { part: 'Disinfection and backflow' } as const
const reading = (
  code: string,
  label: string,
  unit: string,
  wanted: string,
  judge: Judge | undefined,
  more: { part?: ReadingPart; when?: string; span?: readonly [number, number]; earlier?: readonly string[]; sources?: readonly Citation[] } = {},
): ReadingRule => ({
  code,
  label,
  unit,
  wanted,
  verdict: judge ? judge(more.span) : '',
  when: 'TRUE',
  part: 'Readings at line and first fill',
  sources: [],
  earlier: [],
  ...more,
})
/** Readings that are no number are looked into, not passed; nor what no gauge can have read. */
type Judge = (span: ReadingRule['span']) => string
const judged =
  (pass: string, otherwise: string): Judge =>
  (span) => {
    const passed = span ? `IF(AND(reading>=${span[0]},reading<=${span[1]}),"pass","check")` : '"pass"'
    return `IF(reading="","",IF(NOT(ISNUMBER(reading)),"check",IF(${pass},${passed},${otherwise})))`
  }
const CHECK = '"check"'
const SWITCH = practice('a switch holds its setting within 2 psi')

export const readingRules: readonly ReadingRule[] = [
  reading('X1', 'Gauge of the vacuum test, number', '', '', undefined),
  // Over the rating somebody has to say so.
  reading(
    'X2',
    'Line pressed with water, joints open; gauge at its lower end',
    'psi',
    '{LinePressureMost_psi} and more; the pipe takes {LineHolds_psi}',
    judged('AND(reading>=LinePressureMost_psi-0.5,reading<=LineHolds_psi)', 'IF(reading>1.5*LineHolds_psi,"stop","check")'),
    {
      span: [0, 500],
      earlier: ['Line pressed with water, joints open'],
      sources: [
        cite('memory', 'IPC 312.5 and UPC 609.4: held for 15 minutes; a gauge read to half a psi'),
        cite('astmF2164', 'at most 1.5 times the rating; stretched, at most 5 % lost'),
      ],
    },
  ),
  // Polyethylene stretches: topped up until it stands, it may lose a little; what it loses beyond is a leak.
  reading('X3', 'Drop of the line in fifteen minutes, stretched', 'psi', 'none', judged('ABS(reading)<=0.5', 'IF(reading<=0.05*LinePressureMost_psi,"check","stop")'), {
    span: [0, 500],
    earlier: ['Drop of the line in ten minutes', 'Drop of the line in ten minutes, stretched'],
    sources: [cite('astmF2164', 'at most 1.5 times the rating; stretched, at most 5 % lost')],
  }),
  reading(
    'X4',
    'First fill, water over the floor of the pump tank',
    'in',
    '{FirstFill_in}; the float stops the pump at {DeadDepth_in}',
    judged('AND(reading>=FirstFill_in-1,reading<=12*TankWaterDepth_ft)', CHECK),
    {
      when: 'ByGravity=0',
      span: [0, 240],
    },
  ),
  reading(
    'X13',
    'First fill, water over the floor of the tank nearest the house',
    'in',
    '{FirstFill_in}',
    judged('AND(reading>=FirstFill_in-1,reading<=12*TankWaterDepth_ft)', CHECK),
    { when: 'ByGravity=1', span: [0, 240] },
  ),
  // The code's tables size conductors; running current is held to the nameplate, and overloads trip at 115 to 125 % of it.
  reading(
    'X5',
    'Pump running, amperes',
    'A',
    '{MotorCurrent_A}; the nameplate decides',
    judged('AND(reading>=MotorCurrent_A/3,reading<=MotorCurrent_A)', 'IF(reading<=1.25*MotorCurrent_A,"check","stop")'),
    { when: 'ByGravity=0', span: [0, 200], sources: [cite('nec', '430.6(A)(2), 430.32'), practice('under a third of its full load a motor turns nothing')] },
  ),
  reading('X6', 'Switch starts the pump', 'psi', '{CutIn_psi}', judged('ABS(reading-CutIn_psi)<=2', CHECK), { when: 'ByGravity=0', span: [0, 200], sources: [SWITCH] }),
  reading('X7', 'Switch stops the pump', 'psi', '{CutOut_psi}', judged('ABS(reading-CutOut_psi)<=2', CHECK), { when: 'ByGravity=0', span: [0, 250], sources: [SWITCH] }),
  reading('X8', 'Flow at the house', 'gpm', '{HouseFlow_gpm} and more', judged('AND(reading>=HouseFlow_gpm,OR(ByGravity=1,reading<=MAX(CurveFlow_gpm)))', CHECK), {
    span: [0, 500],
  }),
  reading(
    'X9',
    'Pressure at the house at that flow',
    'psi',
    '{HousePressure_psi} and more',
    judged('AND(reading>=HousePressure_psi,reading<=IF(ByGravity=1,HouseBelow_ft/2.31,ShutOffAtHouseFull_psi)+2)', CHECK),
    {
      span: [0, 250],
    },
  ),
  // In gallons until 0.10: what was written then is kept in words.
  reading('X10', 'Chlorine put in, bleach', 'gal', '', undefined, { ...DISINFECTION, when: 'FALSE' }),
  reading(
    'X12',
    'Chlorine put in, bleach: first fill to full tanks',
    'pint',
    '{BleachFirst_pint} to {Bleach_pint} of {BleachStrength%}',
    judged('AND(reading>=0.9*BleachFirst_pint,reading<=1.1*Bleach_pint)', CHECK),
    { ...DISINFECTION, span: [0, 8000], earlier: ['Chlorine put in, bleach'], sources: [practice('the dose within a tenth')] },
  ),
  reading(
    'X14',
    'Chlorine left after the contact time, tanks and house',
    'mg/L',
    '{ChlorineLeft_mg_per_L} to {Dose_mg_per_L}, what was put in',
    judged('AND(reading>=ChlorineLeft_mg_per_L,reading<=1.1*Dose_mg_per_L)', CHECK),
    {
      ...DISINFECTION,
      span: [0, 500],
      earlier: ['Chlorine left after the contact time'],
      sources: [cite('memory', 'AWWA C652'), practice('the dose within a tenth')],
    },
  ),
  reading('X15', 'Chlorine in tanks and at the house, neutralized and flushed', 'mg/L', '{ChlorineUse_mg_per_L} at the most', judged('reading<=ChlorineUse_mg_per_L', CHECK), {
    ...DISINFECTION,
    earlier: ['Chlorine at the house, flushed'],
    span: [0, 500],
    sources: [cite('memory', '40 CFR 141.65: 4.0 mg/L')],
  }),
  reading('X11', 'Backflow protection, test number', '', '{Backflow}', undefined, { ...DISINFECTION, when: 'Backflow<>"none"' }),
]
