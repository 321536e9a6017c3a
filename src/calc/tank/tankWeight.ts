import { arg, calc, step } from '../../calc.js'
import { badInput } from '../../errors.js'
import { cite } from '../../sources.js'
import { outsideHeight, outsideLength, outsideWidth } from './boxArgs.js'

export const tankWeight = calc({
  id: 'TANKWEIGHT',
  chapter: 'tank',
  summary: 'Weight of an empty concrete box tank, openings ignored.',
  takes: {
    length_ft: outsideLength,
    width_ft: outsideWidth,
    height_ft: outsideHeight,
    wall_in: arg('Wall', { least: 0, most: 60 }),
    floor_in: arg('Floor', { least: 0, most: 60 }),
    lid_in: arg('Lid', { least: 0, most: 60 }),
    unitWeight_lb_per_ft3: arg('Unit weight of concrete', { least: 50, most: 250, default: 150 }),
  },
  gives: { weight_lb: 'Weight' },
  steps: [
    step('outside_ft3', 'Outside volume', 'length_ft*width_ft*height_ft', cite('derivation', 'volume of a box')),
    step('inside_ft3', 'Inside volume', '(length_ft-2*wall_in/12)*(width_ft-2*wall_in/12)*(height_ft-(floor_in+lid_in)/12)', cite('derivation', 'volume of a box')),
    step('weight_lb', 'Weight', '(outside_ft3-inside_ft3)*unitWeight_lb_per_ft3', cite('femaP259', 'normal-weight concrete 150 lb/ft³')),
  ],
  notes: ['Two walls are no wider than the tank, floor and lid no higher.'],
  example: [10, 6, 6, 5, 6, 6],
  run({ length_ft, width_ft, height_ft, wall_in, floor_in, lid_in, unitWeight_lb_per_ft3 }) {
    const inside = [length_ft - (2 * wall_in) / 12, width_ft - (2 * wall_in) / 12, height_ft - (floor_in + lid_in) / 12] as const
    if (inside.some((side) => side < 0)) throw badInput('Wall, floor, lid', 'thinner than the tank is wide and high', `${wall_in}, ${floor_in} and ${lid_in} in`)
    return (length_ft * width_ft * height_ft - inside[0] * inside[1] * inside[2]) * unitWeight_lb_per_ft3
  },
})
