import { arg, calc, step } from '../../calc.js'
import { cite } from '../../sources.js'

export const leaderCapacity = calc({
  id: 'LEADERCAPACITY',
  chapter: 'pipe',
  summary: 'Flow of a vertical leader (downspout) filled to a share of its bore.',
  takes: {
    bore_in: arg('Inside diameter', { least: 0.1, most: 60 }),
    filled: arg('Share of the bore that runs full', { least: 0, most: 1 / 3, default: 7 / 24 }),
  },
  gives: { flow_gpm: 'Flow' },
  steps: [step('flow_gpm', 'Flow', '27.8*filled^(5/3)*bore_in^(8/3)', cite('plumbingCode', 'the relation of Wyly and Eaton, which every row follows'))],
  notes: ['The International Plumbing Code has larger flows since 2015 (4 in: 180 gpm against 144): keep the code family with the number.'],
  example: [4],
  run: ({ bore_in, filled }) => 27.8 * filled ** (5 / 3) * bore_in ** (8 / 3),
})
