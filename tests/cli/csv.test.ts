/** CSV after RFC 4180 (https://www.rfc-editor.org/rfc/rfc4180), section 2. */
import { describe, expect, it } from 'vitest'
import { parseCsv } from '../../src/cli/csv.js'

describe('CSV', () => {
  it.each([
    [
      'aaa,bbb\r\nzzz,yyy\r\n',
      [
        ['aaa', 'bbb'],
        ['zzz', 'yyy'],
      ],
    ],
    [
      '"aaa","b \r\nbb","ccc"\r\nzzz,yyy,xxx',
      [
        ['aaa', 'b \r\nbb', 'ccc'],
        ['zzz', 'yyy', 'xxx'],
      ],
    ],
    ['"aaa","b""bb"', [['aaa', 'b"bb']]],
    [
      '1,2\r3,4',
      [
        [1, 2],
        [3, 4],
      ],
    ],
    ['1,,2,\n', [[1, null, 2, null]]],
    ['\ufeff1', [[1]]],
    // A comma for the decimal and a semicolon between fields, as spreadsheets write them where that is the custom.
    [
      'date;rain\n2015-01-01;0,5\n2015-01-02;12,75\n',
      [
        ['date', 'rain'],
        ['2015-01-01', 0.5],
        ['2015-01-02', 12.75],
      ],
    ],
    [
      'a;b,c\n1;2,d\n',
      [
        ['a;b', 'c'],
        ['1;2', 'd'],
      ],
    ],
    // Not every line has the semicolon: it is a sign in a word.
    [
      '1;2,3\n4,5\n',
      [
        ['1;2', 3],
        [4, 5],
      ],
    ],
    [
      '1,5\n2,5\n',
      [
        [1, 5],
        [2, 5],
      ],
    ],
  ])('%j', (text, rows) => {
    expect(parseCsv(text)).toEqual(rows)
  })
  it.each([
    ['"0.5,1.2\n3,4\n', /line 1: a quote is not closed/],
    ['1,"a"b\n', /line 1: .*behind a closed one/],
    ['\ufffd\ufffd1\0,\0', /in UTF-8 is needed/],
  ])('%j is refused', (text, message) => {
    expect(() => parseCsv(text)).toThrow(message)
  })
})
