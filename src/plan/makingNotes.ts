/** What a person should know of a takeoff that was made again: what was typed on it and counts no more, or stands elsewhere now. */
import { roundTo } from '../rounding.js'
import type { Takeoff } from '../takeoff/takeoff.js'
import type { Earlier } from './earlier.js'
import type { Made } from './plan.js'
import { priceFlag } from '../takeoff/priceFlags.js'
import { acceptance, NO_PRICE } from './acceptance.js'
import { answerTo, stopsOf } from './stopAnswers.js'
import { sheetKinds } from './sheets/index.js'

function acceptedWords(at: string, now: string): string {
  if (at === NO_PRICE) return 'what was signed on the quote while it had no price is no acceptance of one'
  if (now === NO_PRICE) return `the customer accepted ${at}: it counts again where the quote has that price`
  return `the customer accepted ${at}; the price is ${now} now, to be agreed on the change order`
}

export function makingNotes(takeoff: Takeoff, earlier: Pick<Earlier, 'before' | 'changes' | 'backAgain'>, { date, revision }: Made): string[] {
  const { before, changes, backAgain } = earlier
  const { design, lines, crew, unused } = takeoff
  const codes = new Set(sheetKinds.flatMap((kind) => kind.codes?.(takeoff) ?? []))
  const moved = Object.keys(crew.cells).filter((code) => !codes.has(code))
  const back = (before?.gone ?? []).filter((code) => lines.some((line) => line.code === code))
  const lapsed = stopsOf(takeoff).filter((stop) => {
    const { earlier, isGiven } = answerTo(takeoff, stop)
    return earlier && !isGiven
  })
  const unanswered = stopsOf(takeoff).filter((stop) => {
    const { said, isGiven } = answerTo(takeoff, stop)
    return said !== '' && !isGiven
  })
  const flagged = lines.filter((line) => priceFlag(takeoff, line, { before, changes, revision, today: date })).map(({ code }) => code)
  const accepted = acceptance(takeoff, before)
  const outgrown = lines.flatMap(({ code, net, override, rule: { unit } }) => {
    const was = before?.lines.get(code)?.net
    return override === undefined || was === undefined || roundTo(was, 2) === roundTo(net, 2)
      ? []
      : [`${code} ${override} ${unit}, where the layout came to ${roundTo(was, 2)} and comes to ${roundTo(net, 2)} now`]
  })
  return [
    ...(before?.isTakeoffGone ? ['its sheet Takeoff was gone or had another name: what was typed there, quantities and prices, is not on the new one'] : []),
    ...(crew.brought?.length ? [`written on its sheet Test beside the entries, and among what was written by hand on its sheet Crew now: ${crew.brought.join('; ')}`] : []),
    ...unused.map(({ code, words }) => `your entry for ${code}, ${words}, has no line any more`),
    ...(back.length ? [`${back.join(', ')}: taken off its takeoff by hand, and there again; the column Without of Jobs leaves an item out`] : []),
    ...(backAgain ? [`taken off its sheet Changes by hand, and there again: ${backAgain.map(({ revision, words }) => `revision ${revision}, ${words}`).join('; ')}`] : []),
    ...(moved.length ? [`what was written for ${moved.join(', ')} has no line of its own any more and stands among what was written by hand on its sheet Crew`] : []),
    ...(outgrown.length ? [`your own quantity still counts, and what it was typed over is another one now: ${outgrown.join('; ')}`] : []),
    ...(flagged.length ? [`prices to look at, with why beside them on its sheet Takeoff: ${flagged.join(', ')}`] : []),
    ...(accepted.lapsed ? [acceptedWords(accepted.lapsed.at, accepted.at)] : []),
    ...unanswered.map(
      ({ label }) =>
        `what is written beside "${label}" answers for nothing (too short, put off or refused; where it can cost a life a name, a number and a reason): there is no price on the quote`,
    ),
    ...lapsed.map(({ label }) => `the answer to "${label}" was given for other figures: there is no price on the quote until it is answered anew`),
  ].map((words) => `${design.name}: ${words}`)
}
