import { arg, calc, step } from '../../calc.js'
import { badInput } from '../../errors.js'
import { cite } from '../../sources.js'

export const trenchBedding = calc({
  id: 'TRENCHBEDDING',
  chapter: 'earth',
  summary: 'Bedding in place around a pipe in a trench, the pipe taken out.',
  takes: {
    length_ft: arg('Length of trench', { least: 0, most: 100_000 }),
    width_ft: arg('Width of trench', { least: 0, most: 100 }),
    pipe_in: arg('Outside diameter of the pipe', { least: 0, most: 240, hint: 'not above the width of the trench' }),
    under_in: arg('Bedding under the pipe', { least: 0, most: 120 }),
    over_in: arg('Bedding over the pipe', { least: 0, most: 240 }),
  },
  gives: { inPlace_yd3: 'Bedding in place' },
  steps: [
    step('section_ft2', 'Section of bedding and pipe', 'width_ft*(under_in+pipe_in+over_in)/12', cite('derivation', 'area')),
    step('pipe_ft2', 'Section of the pipe', 'PI()/4*(pipe_in/12)^2', cite('derivation', 'area of a circle')),
    step('inPlace_yd3', 'Bedding in place', 'length_ft*(section_ft2-pipe_ft2)/27', cite('definitions', '27 ft³ = 1 yd³')),
  ],
  example: [20, 2, 4.5, 4, 6],
  run({ length_ft, width_ft, pipe_in, under_in, over_in }) {
    if (pipe_in > width_ft * 12) throw badInput('Outside diameter of the pipe (pipe)', `0 to the width of the trench, ${width_ft * 12} in`, pipe_in)
    const section = (width_ft * (under_in + pipe_in + over_in)) / 12
    const pipe = (Math.PI / 4) * (pipe_in / 12) ** 2
    return (length_ft * (section - pipe)) / 27
  },
})
