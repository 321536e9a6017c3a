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
export const spreadsheetCode = (error: string): string => spreadsheetCodes[error]!
