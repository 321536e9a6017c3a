/** The cell functions' metadata, in the documented JSON form, from the definitions. */
import { allowedText, leftOutText, type AnyCalculation, type Argument } from '../src/calc.js'
import { WORKING } from '../src/calc/callByName.js'
import { calculations } from '../src/calc/index.js'
import { bareName } from '../src/units.js'

const LONGEST_DESCRIPTION = 255
const cut = (text: string) => (text.length <= LONGEST_DESCRIPTION ? text : `${text.slice(0, LONGEST_DESCRIPTION - 1)}…`)

function parameter(name: string, spec: Argument) {
  const leftOut = leftOutText(spec)
  const isRange = spec.kind === 'series' || spec.kind === 'curve'
  return {
    name: bareName(name),
    description: cut(`${spec.label}: ${allowedText(name, spec)}${leftOut === undefined ? '' : ` (left out: ${leftOut})`}${spec.hint ? `; ${spec.hint}` : ''}`),
    type: 'any',
    dimensionality: isRange ? 'matrix' : 'scalar',
    ...(leftOut !== undefined ? { optional: true } : {}),
  }
}

const functionOf = (calculation: AnyCalculation) => ({
  id: calculation.id,
  name: calculation.id,
  description: cut(calculation.summary),
  parameters: calculation.names.map((name) => parameter(name, calculation.takes[name])),
  result: { type: 'any', dimensionality: calculation.spills || calculation.shapeOf ? 'matrix' : 'scalar' },
})

/** What functions.json holds. Errors of other cells are let in, so that their message is passed on. */
export const functionsMetadata = () => ({
  allowErrorForDataTypeAny: true,
  functions: [
    ...calculations.map(functionOf),
    {
      id: WORKING,
      name: WORKING,
      description: 'Spills the spelled-out working of a function: symbols, meanings, values, units, formulas, sources.',
      parameters: [
        { name: 'function', description: 'Name of the function, as text: "FRICTIONLOSS"', type: 'string', dimensionality: 'scalar' },
        { name: 'argument', description: 'The arguments of that function, in its order', type: 'any', dimensionality: 'matrix', repeating: true },
      ],
      result: { type: 'any', dimensionality: 'matrix' },
    },
  ],
})
