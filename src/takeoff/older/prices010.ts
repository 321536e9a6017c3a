/** Rows of Prices whose unit 0.1.0 wrote wrong into new workbooks: the price was for a piece all the same. */
export const wrongUnits010: Readonly<Record<string, { wrong: string; right: string }>> = {
  'DRAIN-BEND': { wrong: 'ft', right: 'each' },
  'DRAIN-CLEANOUT': { wrong: 'ft', right: 'each' },
  'CONDUIT-BODY': { wrong: 'ft', right: 'each' },
  'CONDUIT-FITTING': { wrong: 'ft', right: 'each' },
}
export const isWrongUnit010 = (code: string, unit: string): boolean => Object.hasOwn(wrongUnits010, code) && wrongUnits010[code]!.wrong === unit.trim()
