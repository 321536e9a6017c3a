/**
 * What answers for a stop on the quote: words of somebody who takes it on, for the figures that stood beside them. There is no price before
 * it, nor after the figures have changed.
 */
import type { RaisedVerdict } from '../takeoff/design.js'
import type { Takeoff } from '../takeoff/takeoff.js'

/** Before the code of an entry: other sheets of the job have codes too. */
export const QUOTE_PREFIX = 'Q '
/** Words that put an answer off. */
const NO_ANSWERS = ['no', 'not', 'none', 'tbd', 'to be', 'n/a', 'later', 'ask', 'wait'] as const
/** How words begin that refuse it or put it off, wherever they stand. */
const REFUSALS = [' refuse', ' rejects', ' declin', ' pending', ' waiting', ' not accept', ' not approv', '?'] as const
/** How the quote calls a stop. */
export const codeOf = (name: string): string => name.replace('Verdict', '')
const DIGITS = [...'0123456789']
/** Where it can cost a life a name, a licence number and a reason are wanted; else who accepts it and why. */
const least = (touchesLife: boolean) => (touchesLife ? { letters: 20, words: 4, hasLicence: true } : { letters: 10, words: 3, hasLicence: false })
/** What a licence is called, and so many digits of its number within so many letters behind it (common practice): a day, a pressure or a room is none. */
const LICENCES = [' lic', ' registered', ' registration', ' pe ', ' pe-', ' p.e', ' se '] as const
const [LICENCE_DIGITS, LICENCE_NEAR] = [3, 24] as const

function isAnswer(said: string, touchesLife: boolean): boolean {
  const words = said.trim().replace(/ +/g, ' ')
  const { letters, words: count, hasLicence } = least(touchesLife)
  const isPutOff = NO_ANSWERS.some((start) => `${words.toLowerCase()} `.startsWith(`${start} `))
  return (
    words.length >= letters &&
    words.split(' ').length >= count &&
    (!hasLicence || digitsIn(behindLicences(` ${words.toLowerCase()}`)) >= LICENCE_DIGITS) &&
    !isPutOff &&
    !REFUSALS.some((word) => ` ${words.toLowerCase()}`.includes(word))
  )
}

const digitsIn = (text: string): number => text.replace(/\D/g, '').length
const behindLicences = (words: string): string =>
  LICENCES.map((mark) => (words.includes(mark) ? words.slice(words.indexOf(mark) + mark.length).slice(0, LICENCE_NEAR) : '')).join('')

/** The same of a cell, as a formula that is 1 or 0. */
export function answerFormula(cell: string, touchesLife: boolean): string {
  const words = `TRIM(${cell})`
  const { letters, words: count, hasLicence } = least(touchesLife)
  const small = `" "&LOWER(${words})`
  const behind = LICENCES.map((mark) => `IFERROR(MID(${small},FIND("${mark}",${small})+${mark.length},${LICENCE_NEAR}),"")`).join('&')
  const withoutDigits = DIGITS.reduce((text, digit) => `SUBSTITUTE(${text},"${digit}","")`, behind)
  return [
    `(LEN(${words})>=${letters})`,
    `(LEN(${words})-LEN(SUBSTITUTE(${words}," ",""))>=${count - 1})`,
    ...(hasLicence ? [`(LEN(${behind})-LEN(${withoutDigits})>=${LICENCE_DIGITS})`] : []),
    ...NO_ANSWERS.map((start) => `(LEFT(LOWER(${words})&" ",${start.length + 1})<>"${start} ")`),
    ...REFUSALS.map((word) => `(LEN(SUBSTITUTE(" "&LOWER(${words}),"${word}",""))=LEN(${words})+1)`),
  ].join('*')
}

/** A stop as the quote says it; while nobody has answered, what is wanted of whom stands behind it. */
export const stopWords = ({ label, words }: RaisedVerdict): string => `${label}: ${words}`
export const wantedOf = (touchesLife: boolean | undefined): string =>
  touchesLife ? 'It can cost a life: change the job, or a licensed person enters name, licence number and reason.' : 'Change the job, or enter who accepts it and why.'

/** Behind the code of a stop: its answer for other figures, kept so that it counts again where they come back. */
export const earlierCode = (name: string): string => `${codeOf(name)} before`

/** What was written beside a stop for the figures that stand there now, and what was written for others. */
export function answerTo({ crew }: Pick<Takeoff, 'crew'>, stop: RaisedVerdict): { said: string; isGiven: boolean; earlier: Answer | undefined } {
  const [code, words] = [codeOf(stop.name), stopWords(stop)]
  // Up to 0.10 the whole name of the verdict stood before it, and nothing said what an answer was given for.
  const [now, before] = [[code, stop.name], [earlierCode(stop.name)]].map((codes) =>
    codes
      .flatMap((known): Answer[] => {
        const { done = '', stands } = crew.cells[QUOTE_PREFIX + known] ?? {}
        return done === '' ? [] : [{ said: String(done), stands: stands === undefined ? words : String(stands) }]
      })
      .at(0),
  )
  // Up to 0.12 what is wanted stood with it.
  const isFor = (answer: Answer | undefined) => answer !== undefined && [words, `${words} ${wantedOf(stop.rule.touchesLife)}`].includes(answer.stands)
  const said = isFor(now) ? now!.said : now === undefined && isFor(before) ? before!.said : ''
  const earlier = [now, before].find((answer) => answer && !isFor(answer))
  return { said, isGiven: isAnswer(said, stop.rule.touchesLife ?? false), earlier }
}
interface Answer {
  said: string
  /** The stop as the quote said it then. */
  stands: string
}
export const stopsOf = ({ design }: Pick<Takeoff, 'design'>): RaisedVerdict[] => design.verdicts().filter(({ verdict }) => verdict === 'stop')
/** Stops that nobody has answered for on the quote. */
export const openStops = (takeoff: Takeoff): number => stopsOf(takeoff).filter((stop) => !answerTo(takeoff, stop).isGiven).length
