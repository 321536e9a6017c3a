/** What the last digits of a quotient may lose where pieces are cut: as a formula writes it, and as a number. */
export const CUT_SLACK = '0.000000001'
export const CUT_SLACK_NUMBER = Number(CUT_SLACK)
