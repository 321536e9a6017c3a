/** What a spreadsheet takes of a formula (Microsoft, Excel specifications and limits): characters, and levels of nesting. */
export const LONGEST_FORMULA = 8192
const DEEPEST = 64

/** Brackets within a text open nothing. */
function depth(text: string): number {
  let [now, most] = [0, 0]
  for (const letter of text.replace(/"[^"]*"/g, '')) {
    if (letter === '(') most = Math.max(most, ++now)
    else if (letter === ')') now--
  }
  return most
}

/** What is allowed and what came, where a formula is longer or deeper than that. */
export const beyondLimits = (text: string): { allowed: string; came: string } | undefined =>
  text.length > LONGEST_FORMULA || depth(text) > DEEPEST
    ? {
        allowed: `a formula of at most ${LONGEST_FORMULA.toLocaleString('en-US')} characters and ${DEEPEST} levels of brackets`,
        came: `${text.length} characters, ${depth(text)} levels`,
      }
    : undefined
