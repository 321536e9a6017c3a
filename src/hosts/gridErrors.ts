/** The errors of the grid, and what a spreadsheet calls each. */
const spreadsheetCodes: Readonly<Record<string, string>> = {
  '#N/A': '#N/A',
  '#ERROR': '#VALUE!',
  '#DIV/0!': '#DIV/0!',
  '#NUM!': '#NUM!',
  '#REF': '#REF!',
  '#CYCLE': '#REF!',
  '#NAME?': '#NAME?',
  '#BAD_EXPR': '#NAME?',
  '#SPILL!': '#SPILL!',
  '#NULL!': '#NULL!',
}

/** Whether what a cell of the grid holds is an error. */
export const isGridError = (value: unknown): value is string => typeof value === 'string' && Object.hasOwn(spreadsheetCodes, value)
/** What the grid calls an error of a spreadsheet; nothing where it is none. */
export const gridError = (code: string): string | undefined => Object.entries(spreadsheetCodes).find(([, theirs]) => theirs === code)?.[0]
export const spreadsheetCode = (error: string): string => spreadsheetCodes[error]!
