import { arg, calc, step } from '../../calc.js'
import { grouped, noAnswer } from '../../errors.js'
import { cite } from '../../sources.js'
import { citeRows } from '../../table.js'
import { conductors } from '../../tables/conductors.js'
import { ampacityFormula, columnArg, currentArg, lengthArg, metalArg, phasesArg, resistanceFormula, runFactor, runFactorFormula } from './conductorArgs.js'

/** Volts by which a drop at the limit may be over it in its last digits. */
const DROPS_DIFFER = '0.000000001'

export const conductorSize = calc({
  id: 'CONDUCTORSIZE',
  chapter: 'power',
  summary: 'Smallest conductor that keeps the drop limit at this current and carries 125 % of it.',
  takes: {
    current_A: currentArg,
    length_ft: lengthArg,
    voltage_V: arg('Voltage', { least: 12, most: 1000 }),
    limit: arg('Drop limit, share of the voltage', { least: 0.001, most: 0.2, default: 0.03 }),
    phases: phasesArg,
    metal: metalArg,
    column_C: columnArg,
  },
  gives: { size: 'Size, AWG' },
  steps: [
    step('run', 'Length factor times current times length', `${runFactorFormula}*current_A*length_ft`, cite('nec', 'voltage-drop formulas in common use')),
    step(
      'dropRow',
      'First row within the drop limit',
      resistanceFormula((list) => `SUMPRODUCT((run*${list}/1000>limit*voltage_V+${DROPS_DIFFER})*1)`) + '+1',
      citeRows(conductors, 'nec', 'Chapter 9 Table 8; 3 % is advice of the code notes'),
    ),
    step(
      'ampacityRow',
      'First row that carries 125 %',
      ampacityFormula((list) => `SUMPRODUCT((${list}<1.25*current_A)*1)`) + '+1',
      citeRows(conductors, 'nec', '430.22 and Table 310.16 (310.15(B)(16) in 2011 to 2017)'),
    ),
    step('size', 'Size, AWG', 'INDEX(Conductors[size],MAX(dropRow,ampacityRow,IF(metal="copper",1,2)))', citeRows(conductors, 'nec', 'rows of the tables above')),
  ],
  notes: ['Short-circuit and overload protection, and the rules for small conductors, are the electrician’s to settle.'],
  example: [8, 250, 230],
  run({ current_A, length_ft, voltage_V, limit, phases, metal, column_C }) {
    const run = runFactor(phases) * current_A * length_ft
    const fits = conductors.rows.find((row) => {
      const ampacity = row[`${metal}${column_C}_A`]
      const resistance = row[`${metal}_ohm_per_kft`] as number
      return typeof ampacity === 'number' && ampacity >= 1.25 * current_A && (run * resistance) / 1000 <= limit * voltage_V + Number(DROPS_DIFFER)
    })
    if (!fits) throw noAnswer('', `no ${metal} conductor up to 4/0 AWG is large enough for ${grouped(current_A)} A over ${grouped(length_ft)} ft at ${voltage_V} V`)
    return fits.size as string
  },
})
