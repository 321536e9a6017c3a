import { arg, calc, short, step } from '../../calc.js'
import { noAnswer } from '../../errors.js'
import { citeRows } from '../../table.js'
import { motors } from '../../tables/motors.js'
import { phasesArg } from './conductorArgs.js'

/** Each column serves a band of system voltages. */
const columns = [
  { name: 'at115_A', low: 110, high: 120 },
  { name: 'at200_A', low: 200, high: 200 },
  { name: 'at208_A', low: 208, high: 208 },
  { name: 'at230_A', low: 220, high: 240 },
  { name: 'at460_A', low: 440, high: 480 },
  { name: 'at575_A', low: 550, high: 600 },
] as const
const BANDS = '110 to 120, 200, 208, 220 to 240, 440 to 480 or 550 to 600'
/** A rating typed as 0.33, or the usual kilowatts of a listed motor (1.1 kW is sold as 1-1/2 hp, 0.18 kW as 1/4), mean the listed power. */
const POWER_WITHIN = 0.04

const inRow = `(Motors[phases]=phases)*((Motors[power_hp]-power_hp)^2<=(${POWER_WITHIN}*Motors[power_hp])^2)`

export const motorCurrent = calc({
  id: 'MOTORCURRENT',
  chapter: 'power',
  summary: 'Full-load current of a motor from the code table.',
  takes: {
    power_hp: arg('Motor power', { least: 0.1, most: 10.2, hint: 'as listed' }),
    voltage_V: arg('Voltage', { least: 110, most: 600, hint: BANDS }),
    phases: phasesArg,
  },
  gives: { current_A: 'Full-load current' },
  steps: [
    step(
      'listed_A',
      'Full-load current of the table; 0 where the motor is not listed',
      columns.map(({ name, low, high }) => `IF((voltage_V>=${low})*(voltage_V<=${high})=1,SUMPRODUCT(${inRow},Motors[${name}]),0)`).join('+'),
      citeRows(motors, 'nec', 'Tables 430.248 and 430.250'),
    ),
    step('current_A', 'Full-load current', 'IF(listed_A>0,listed_A,NA())', citeRows(motors, 'nec', 'Tables 430.248 and 430.250')),
  ],
  notes: [
    'Use the table, not the nameplate, for conductors and short-circuit protection; the nameplate for the overload device. Some submersible motors draw more: then the maker’s figure governs.',
  ],
  example: [1, 230],
  run({ power_hp, voltage_V, phases }) {
    const column = columns.find(({ low, high }) => voltage_V >= low && voltage_V <= high)
    if (!column) throw noAnswer('Voltage (voltage)', `${BANDS} V`, voltage_V)
    const row = motors.rows.find((motor) => motor.phases === phases && Math.abs((motor.power_hp as number) - power_hp) <= POWER_WITHIN * (motor.power_hp as number))
    const current = row?.[column.name]
    if (typeof current !== 'number') {
      const listed = motors.rows.filter((motor) => motor.phases === phases && motor[column.name] !== null).map((motor) => short(motor.power_hp as number))
      if (!listed.length) {
        const bands = columns.filter(({ name }) => motors.rows.some((motor) => motor.phases === phases && motor[name] !== null))
        throw noAnswer('Voltage (voltage)', `${bands.map(({ low, high }) => (low === high ? low : `${low} to ${high}`)).join(', ')} V for motors of ${phases} phase`, voltage_V)
      }
      throw noAnswer('Motor power (power)', `one of ${listed.join(', ')} hp, listed for ${phases} phase and ${voltage_V} V`, Number(power_hp.toPrecision(4)))
    }
    return current
  },
})
