/** Our reading of formulas against a spreadsheet that others wrote: the grid's engine, formula by formula. */
import { describe, expect, it } from 'vitest'
import { formula, FormulaSyntaxError } from '../../src/formula/formula.js'
import { allowedFunctions } from '../../src/formula/functions.js'
import { isError, type Value } from '../../src/formula/value.js'
import { GridEngine } from '../../src/hosts/gridEngine.js'

const values: Record<string, Value> = { A: 7, B: 2.5, Name: 'Quern', Empty: '', Blank: null, List: [3, 1, 4, 1, 5], Words: ['x', 'Y', 'z', 'x', ''] }
const cells: Record<string, string> = { A1: '7', B1: '2.5', C1: 'Quern', E1: '3', E2: '1', E3: '4', E4: '1', E5: '5', F1: 'x', F2: 'Y', F3: 'z', F4: 'x' }
const places: Record<string, string> = { A: 'A1', B: 'B1', Name: 'C1', Empty: 'D1', Blank: 'D1', List: 'E1:E5', Words: 'F1:F5' }
const engine = new GridEngine({}, cells)

const texts = [
  'A+B*2',
  'A-B-1',
  '-A+B',
  'A/B',
  'A^2',
  '2^-1',
  'A*50%',
  '(A+B)*2',
  'A>B',
  'A<=7',
  'A<>7',
  'A=7',
  'Name="quern"',
  'Name&" "&A',
  'IF(A>B,"yes","no")',
  'IF(A<B,1,IF(B>2,2,3))',
  'IFERROR(A/0,9)',
  'IFERROR(A,9)',
  'AND(A>1,B>1)',
  'OR(A>10,B>10)',
  'NOT(A>1)',
  'MIN(A,B,1)',
  'MAX(List)',
  'SUM(List)',
  'SUM(List,A)',
  'COUNT(List)',
  'SUMPRODUCT(List,List)',
  'SUMPRODUCT((List>1)*1)',
  'SUMPRODUCT((Words="x")*1,List)',
  'SUMPRODUCT((List>=A-4)*(List<=A))',
  'INDEX(List,3)',
  'MATCH(4,List,0)',
  'MATCH("y",Words,0)',
  'INDEX(List,MATCH("z",Words,0))',
  'ROUND(2.675,2)',
  'ROUND(-2.5,0)',
  'ROUND(1234.567,-2)',
  'ROUNDUP(2.01,0)',
  'ROUNDUP(-2.01,0)',
  'ROUNDDOWN(2.99,1)',
  'INT(-2.5)',
  'MOD(7,3)',
  'MOD(-7,3)',
  'ABS(-3)',
  'SQRT(16)',
  'EXP(1)',
  'LN(10)',
  'PI()',
  'SIN(1)',
  'ATAN(1)',
  'LEN(Name)',
  'LOWER(Name)',
  'ISNUMBER(A)',
  'ISNUMBER(Name)',
  'Empty=""',
  'IF(Empty="",1,2)',
  'Blank=""',
  '""=Blank',
  'Blank=0',
  '0=Blank',
  'Blank<"a"',
  '"a">Blank',
  'Blank<1',
  'Blank>-1',
  'Blank="a"',
  'A&""',
  'TRUE',
  'IF(TRUE,1,2)',
  'IFERROR(NA(),"none")',
  'TEXT(1234567.891,"#,##0")',
  'TEXT(1234.5,"#,##0.00")',
  'TEXT(0.25,"#,##0")',
  'TEXT(-98765.4321,"#,##0.0")',
]

describe('formulas', () => {
  it.each(texts)('%s', (text) => {
    const ours = formula(text).evaluate({ value: (name) => values[name] })
    const theirs = engine.evaluate(`=${formula(text).render((name) => places[name]!)}`)
    const { value } = Array.isArray(theirs) ? theirs[0]![0]! : theirs
    if (typeof ours === 'number') expect(value).toBeCloseTo(ours, 12)
    else expect(ours).toBe(value)
  })
  it('tests every function that is allowed', () => {
    const used = new Set(texts.flatMap((text) => formula(text).functions))
    expect(allowedFunctions.filter((name) => !used.has(name))).toEqual([])
  })
  it('answers errors as a spreadsheet does', () => {
    const of = (text: string) => {
      const value = formula(text).evaluate({ value: (name) => values[name] })
      return isError(value) ? value.code : value
    }
    expect(['1/0', 'SQRT(-1)', 'LN(0)', 'Nothing', 'NOTHING(1)', '"a"+1', 'INDEX(List,9)', 'MATCH(9,List,0)', 'NA()', '1E308*10', 'SUM(List)/0'].map(of)).toEqual([
      '#DIV/0!',
      '#NUM!',
      '#NUM!',
      '#NAME?',
      '#NAME?',
      '#VALUE!',
      '#REF!',
      '#N/A',
      '#N/A',
      '#NUM!',
      '#DIV/0!',
    ])
  })
  it('refuses what is no formula', () => {
    for (const text of ['1+', 'IF(', ')', '{1,2}', 'LAMBDA(x,x)', '"open', '']) expect(() => formula(text), text).toThrow(FormulaSyntaxError)
  })
  it('renders names and calls, and leaves the rest as it was', () => {
    expect(
      formula('IF(A>1, B , "A")+FOO(A,BAR(B))').render(
        (name) => `$${name}$1`,
        (call) => (call.name === 'BAR' ? `bar<${call.args.join('|')}>` : undefined),
      ),
    ).toBe('IF($A$1>1, $B$1 , "A")+FOO($A$1,bar<$B$1>)')
  })
  it('MATCH without its third argument looks in an ascending list; an empty cell is not true', () => {
    // ISO/IEC 29500-1, 18.17.7.210: the default of the match type is 1, the largest value that is no larger.
    const scope = (value: Value) => ({ value: () => value })
    expect(formula('MATCH(2.5,A)').evaluate(scope([1, 2, 3] as unknown as Value))).toBe(2)
    expect(formula('IF(A,"yes","no")').evaluate(scope(null))).toBe('no')
  })
  it('a list of one row stays one row', () => {
    const scope = { value: () => [5] as unknown as Value }
    expect(formula('A+1').evaluate(scope)).toEqual([6])
    expect(formula('SUM(A*2)').evaluate(scope)).toBe(10)
  })
})
