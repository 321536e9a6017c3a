/**
 * What answers for a stop on the quote: words of somebody who takes it on, for the figures that stood beside them. There is no price before
 * it, nor after the figures have changed.
 */
import type { RaisedVerdict } from '../takeoff/design.js'
import type { Takeoff } from '../takeoff/takeoff.js'

/** Before the code of an entry: other sheets of the job have codes too. */
export const QUOTE_PREFIX = 'Q '
/** Words that put an answer off. */
const NO_ANSWERS = ['no', 'not', 'none', 'tbd', 'to be', 'n/a', 'later', 'ask'] as const
/** How the quote calls a stop. */
export const codeOf = (name: string): string => name.replace('Verdict', '')
const DIGITS = [...'0123456789']
/** Where it can cost a life a name, a licence number and a reason are wanted; else who accepts it and why. */
const least = (touchesLife: boolean) => (touchesLife ? { letters: 20, words: 4, hasNumber: true } : { letters: 10, words: 3, hasNumber: false })

function isAnswer(said: string, touchesLife: boolean): boolean {
  const words = said.trim().replace(/ +/g, ' ')
  const { letters, words: count, hasNumber } = least(touchesLife)
  const isPutOff = NO_ANSWERS.some((start) => `${words.toLowerCase()} `.startsWith(`${start} `))
  return words.length >= letters && words.split(' ').length >= count && (!hasNumber || /\d/.test(words)) && !isPutOff
}

/** The same of a cell, as a formula that is 1 or 0. */
export function answerFormula(cell: string, touchesLife: boolean): string {
  const words = `TRIM(${cell})`
  const { letters, words: count, hasNumber } = least(touchesLife)
  const withoutDigits = DIGITS.reduce((text, digit) => `SUBSTITUTE(${text},"${digit}","")`, words)
  return [
    `(LEN(${words})>=${letters})`,
    `(LEN(${words})-LEN(SUBSTITUTE(${words}," ",""))>=${count - 1})`,
    ...(hasNumber ? [`(LEN(${words})>LEN(${withoutDigits}))`] : []),
    ...NO_ANSWERS.map((start) => `(LEFT(LOWER(${words})&" ",${start.length + 1})<>"${start} ")`),
  ].join('*')
}

/** A stop as the quote says it, with what is wanted of whom. */
export const stopWords = ({ label, words, rule }: RaisedVerdict): string => `${label}: ${words} ${wantedOf(rule.touchesLife)}`
export const wantedOf = (touchesLife: boolean | undefined): string =>
  touchesLife ? 'It can cost a life: change the job, or a licensed person enters name, licence number and reason.' : 'Change the job, or enter who accepts it and why.'

/** What was written beside a stop, and whether it was written for what stands there now. */
export function answerTo({ crew }: Pick<Takeoff, 'crew'>, stop: RaisedVerdict): { said: string; isOfOtherFigures: boolean; isGiven: boolean } {
  // Up to 0.10 the whole name of the verdict stood before it.
  const entry = crew.cells[`${QUOTE_PREFIX}${codeOf(stop.name)}`] ?? crew.cells[`${QUOTE_PREFIX}${stop.name}`]
  const said = String(entry?.done ?? '')
  // A workbook of before 0.11 does not say what an answer was given for.
  const isOfOtherFigures = said !== '' && entry?.stands !== undefined && entry.stands !== stopWords(stop)
  return { said, isOfOtherFigures, isGiven: !isOfOtherFigures && isAnswer(said, stop.rule.touchesLife ?? false) }
}
export const stopsOf = ({ design }: Pick<Takeoff, 'design'>): RaisedVerdict[] => design.verdicts().filter(({ verdict }) => verdict === 'stop')
/** Stops that nobody has answered for on the quote. */
export const openStops = (takeoff: Takeoff): number => stopsOf(takeoff).filter((stop) => !answerTo(takeoff, stop).isGiven).length
