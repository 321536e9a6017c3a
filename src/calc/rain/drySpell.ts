import { arg, calc, series, step } from '../../calc.js'
import { cite } from '../../sources.js'

export const drySpell = calc({
  id: 'DRYSPELL',
  chapter: 'rain',
  summary: 'Longest run of periods with less rain than counts as wet.',
  takes: {
    rain_in: series('Rain', { least: 0, most: 1000 }),
    wet_in: arg('Rain that counts as wet', { least: 0, most: 100, default: 0.01 }),
  },
  gives: { periods: 'Periods' },
  steps: [step('periods', 'Longest run', 'MAX(run)', cite('derivation', 'a count'))],
  periods: {
    start: { run: '0' },
    passes: 1,
    columns: [step('run', 'Dry periods in a row', 'IF(rain_in<wet_in,before_run+1,0)', cite('derivation', 'a count'))],
  },
  example: [[0.2, 0, 0, 0.5, 0, 0, 0]],
  run({ rain_in, wet_in }) {
    let longest = 0
    let dry = 0
    for (let at = 0; at < rain_in.length; at++) {
      dry = rain_in[at]! < wet_in ? dry + 1 : 0
      if (dry > longest) longest = dry
    }
    return longest
  },
})
