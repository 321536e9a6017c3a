/** Arguments that the conductor functions share, and how their steps pick a column of the conductor table. */
import { arg, choice } from '../../calc.js'

export const metalArg = choice('Metal', { options: ['copper', 'aluminum'], default: 'copper', short: { cu: 'copper', al: 'aluminum', aluminium: 'aluminum' } })
export const columnArg = arg('Terminal column', { least: 60, most: 75, only: [60, 75], default: 60, hint: '60 for Type UF cable and 60 °C terminals' })
export const phasesArg = arg('Phases', { least: 1, most: 3, only: [1, 3], default: 1 })
export const currentArg = arg('Current', { least: 0, most: 2000 })
export const lengthArg = arg('Length, one way', { least: 0, most: 100_000 })

/** Length factor of a circuit: out and back for one phase, the square root of three for three. */
export const runFactor = (phases: number) => (phases === 3 ? Math.sqrt(3) : 2)
export const runFactorFormula = 'IF(phases=3,SQRT(3),2)'

export const ampacityFormula = (pick: (columnOfTable: string) => string) =>
  `IF(metal="copper",IF(column_C=60,${pick('Conductors[copper60_A]')},${pick('Conductors[copper75_A]')}),IF(column_C=60,${pick('Conductors[aluminum60_A]')},${pick('Conductors[aluminum75_A]')}))`
export const resistanceFormula = (pick: (columnOfTable: string) => string) =>
  `IF(metal="copper",${pick('Conductors[copper_ohm_per_kft]')},${pick('Conductors[aluminum_ohm_per_kft]')})`
export const atSize = (columnOfTable: string) => `INDEX(${columnOfTable},MATCH(size,Conductors[size],0))`
