import { arg, calc, step } from '../../calc.js'
import { badInput } from '../../errors.js'
import { cite } from '../../sources.js'

const ZERO_F = 459.67
const SEA_LEVEL_INHG = 29.92
const gasLaw = cite('derivation', 'pressure over absolute temperature is constant in a tight, rigid tank')

export const vacuumLoss = calc({
  id: 'VACUUMLOSS',
  chapter: 'tank',
  summary: 'Vacuum lost to leakage, after correction for temperature and barometer.',
  takes: {
    start_inHg: arg('Vacuum at the start', { least: 0, most: 30 }),
    end_inHg: arg('Vacuum at the end', { least: 0, most: 30 }),
    startTemp_F: arg('Air temperature in the tank at the start', { least: -40, most: 150, optional: 'no correction for temperature', hint: 'give both temperatures or neither' }),
    endTemp_F: arg('Air temperature in the tank at the end', { least: -40, most: 150, optional: 'no correction for temperature' }),
    startBarometer_inHg: arg('Barometer at the start', { least: 20, most: 32, optional: '29.92 inHg', hint: 'needed where the one at the end is given' }),
    endBarometer_inHg: arg('Barometer at the end', { least: 20, most: 32, optional: 'as at the start' }),
  },
  gives: { loss_inHg: 'Vacuum lost to leakage' },
  steps: [
    step('warming', 'Ratio of absolute temperatures', 'IF(startTemp_F="",1,(endTemp_F+459.67)/(startTemp_F+459.67))', gasLaw),
    step('first_inHg', 'Barometer at the start', 'IF(startBarometer_inHg="",29.92,startBarometer_inHg)', cite('practice', 'sea level where none was read')),
    step('barometer_inHg', 'Barometer at the end', 'IF(endBarometer_inHg="",first_inHg,endBarometer_inHg)', gasLaw),
    step('expected_inHg', 'Reading expected of a tight tank', 'start_inHg*warming+(barometer_inHg-first_inHg*warming)', gasLaw),
    step('loss_inHg', 'Vacuum lost to leakage', 'expected_inHg-end_inHg', gasLaw),
  ],
  notes: ['Five degrees of warming take 0.24 inHg off the gauge of a tight tank at 4 inHg.', 'Both readings lie below the barometer, 29.92 inHg where none is given.'],
  example: [4, 3.7, 70, 75],
  run({ start_inHg, end_inHg, startTemp_F, endTemp_F, startBarometer_inHg, endBarometer_inHg }) {
    if ((startTemp_F === undefined) !== (endTemp_F === undefined)) throw badInput('Air temperature in the tank (startTemp, endTemp)', 'both or neither', 'one of them')
    if (startBarometer_inHg === undefined && endBarometer_inHg !== undefined)
      throw badInput('Barometer at the start (startBarometer)', '20 to 32 inHg: it is needed when the one at the end is given', '')
    const first = startBarometer_inHg ?? SEA_LEVEL_INHG
    const last = endBarometer_inHg ?? first
    if (start_inHg >= first) throw badInput('Vacuum at the start (start)', `below the barometer, ${first} inHg`, start_inHg)
    if (end_inHg >= last) throw badInput('Vacuum at the end (end)', `below the barometer, ${last} inHg`, end_inHg)
    const warming = startTemp_F === undefined ? 1 : (endTemp_F! + ZERO_F) / (startTemp_F + ZERO_F)
    const expected = start_inHg * warming + (last - first * warming)
    return expected - end_inHg
  },
})
