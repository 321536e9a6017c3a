/** The closed list of units: exact factors, and texts as people write them. */
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { nominalSize } from '../src/keys.js'
import { fieldsOf, tableNames } from '../src/takeoff/officeTables.js'
import { convert, parseNumber, physicalSize, readAs, symbolOf, unitNames, unitOf, type UnitName } from '../src/units.js'

describe('conversions', () => {
  // NIST Handbook 44 Appendix C and Special Publication 811 (values from memory, exact by definition), but where a source is named.
  it.each<[number, UnitName, number, UnitName]>([
    [1, 'ft', 0.3048, 'm'],
    [1, 'in', 25.4, 'mm'],
    [2700, 'lb_per_yd3', 100, 'lb_per_ft3'],
    [1, 'gal', 3.785411784, 'L'],
    [1, 'ft3', 1728 / 231, 'gal'],
    [1, 'gpm', 3.785411784, 'Lpmin'],
    [1, 'yd3', 27, 'ft3'],
    [1, 'acre', 43560, 'ft2'],
    [1, 'lb', 0.45359237, 'kg'],
    [1, 'ton', 2000, 'lb'],
    [1, 'tonne', 1000, 'kg'],
    [100, 'C', 212, 'F'],
    [32, 'F', 0, 'C'],
    [1, 'hp', 745.6998715822702, 'W'],
    [1, 'bar', 100, 'kPa'],
    [1, 'psi', 6.894757293168361, 'kPa'],
    [1, 'cfs', 448.8311688311688, 'gpm'],
    [1, 'm3ph', 1 / 3.6, 'Lps'],
    [12, 'in_per_ft', 1000, 'mm_per_m'],
    // Reference pack, conversions: 1 inHg (32 °F) is 3386.3886 Pa, 0.491154 psi.
    [1, 'inHg', 3.386388640341, 'kPa'],
    // 1 ft of water is 2989.06692 Pa, the conventional column.
    [1, 'ftw', 2.98906692, 'kPa'],
  ])('%d %s is %d %s', (value, from, expected, to) => {
    // Sixteen figures of a double, a few operations.
    expect(Math.abs(convert(value, from, to) - expected)).toBeLessThanOrEqual(1e-12 * Math.max(1, Math.abs(expected)))
  })
  it('goes there and back', () => {
    fc.assert(
      fc.property(fc.constantFrom(...unitNames), fc.constantFrom(...unitNames), fc.double({ min: -1e6, max: 1e6, noNaN: true }), (one, other, value) => {
        let there: number
        try {
          there = convert(value, one, other)
        } catch (error) {
          expect(error).toBeInstanceOf(RangeError)
          return
        }
        const back = convert(there, other, one)
        expect(Math.abs(back - value)).toBeLessThanOrEqual(1e-9 * Math.max(1, Math.abs(value)))
      }),
    )
  })
})

describe('the size of every unit', () => {
  // NIST Special Publication 811, Appendix B (from memory); forces and pressures as the weight they hold, by 9.80665 m/s², a head as its height.
  const sizes: Readonly<Record<UnitName, number>> = {
    ft: 0.3048,
    ft_per_ft: 1,
    cm_per_m: 0.01,
    yd: 0.9144,
    cm2: 1e-4,
    cfm: 0.028316846592 / 60,
    MPa: 1e6 / 9.80665,
    mbar: 100 / 9.80665,
    N: 1 / 9.80665,
    kN: 1000 / 9.80665,
    in: 0.0254,
    m: 1,
    cm: 0.01,
    mm: 0.001,
    ft2: 0.09290304,
    in2: 0.00064516,
    m2: 1,
    acre: 4046.8564224,
    ha: 10_000,
    yd2: 0.83612736,
    gal: 0.003785411784,
    L: 0.001,
    m3: 1,
    ft3: 0.028316846592,
    in3: 1.6387064e-5,
    yd3: 0.764554857984,
    pint: 0.000473176473,
    quart: 0.000946352946,
    kgal: 3.785411784,
    gpm: 6.30901964e-5,
    cfs: 0.028316846592,
    Lps: 0.001,
    Lpmin: 1.6666666667e-5,
    m3ph: 2.7777777778e-4,
    gph: 1.0515032733e-6,
    m3ps: 1,
    gal_per_day: 4.38126364e-8,
    L_per_day: 1.1574074074e-8,
    ftw: 0.3048,
    mw: 1,
    psi: 703.06957964,
    psf: 4.8824276364,
    kPa: 101.9716213,
    bar: 10197.16213,
    inHg: 345.31554,
    mmHg: 13.5951,
    lb: 0.45359237,
    kg: 1,
    ton: 907.18474,
    tonne: 1000,
    kip: 453.59237,
    lbf: 0.45359237,
    F: 5 / 9,
    C: 1,
    deltaF: 5 / 9,
    deltaC: 1,
    hp: 745.69987158,
    kW: 1000,
    W: 1,
    V: 1,
    A: 1,
    fps: 0.3048,
    mps: 1,
    fps2: 0.3048,
    in_per_h: 7.0555555556e-6,
    mm_per_h: 2.7777777778e-7,
    ft_per_h: 8.4666666667e-5,
    ft2_per_s: 0.09290304,
    in_per_ft: 0.083333333333,
    mm_per_m: 0.001,
    percent_fall: 0.01,
    percent: 0.01,
    per_F: 1,
    lb_per_ft3: 16.018463374,
    lb_per_yd3: 0.59327642126,
    kg_per_m3: 1,
    kN_per_m3: 1000 / 9.80665,
    t_per_m3: 1000,
    s: 1,
    min: 60,
    h: 3600,
    day: 86400,
    days: 86400,
    per_day: 1.1574074074e-5,
    h_per_day: 0.041666666667,
    deg: 1,
    ohm_per_kft: 1,
    cmil: 1,
    mg_per_L: 1,
    // 3.6 MJ in 3.785411784 m³ is 951,019.388 Pa.
    kWh_per_kgal: 951019.38849 / 9.80665,
    yd3_per_h: 2.1237634944e-4,
    yd3_per_day: 8.84901456e-6,
    usd: 1,
    usd_per_h: 2.7777777778e-4,
  }
  it.each(unitNames)('%s', (name) => {
    // Figures above have ten digits.
    expect(physicalSize(name)!.size / sizes[name]).toBeCloseTo(1, 8)
  })
})

describe('texts', () => {
  it.each([`8' 66"`, `1'200`, `1'000`, `1'005`, '1’200', '5 ft 48 in', `0' 12"`, '-2 ft 12.5 in'])('%s is a slip: behind feet stand less than 12 inches', (text) => {
    expect(readAs(text, 'ft')).toEqual({ ok: false, reason: 'inches' })
  })
  it.each<[string, UnitName, number]>([
    ['45 m', 'ft', 45 / 0.3048],
    ['6 L/s', 'gpm', (6 * 60) / 3.785411784],
    ['2 in', 'in', 2],
    ['15 °C', 'F', 59],
    ['3 bar', 'psi', 43.511321],
    ['1-1/4 in', 'in', 1.25],
    ['1 1/4 in', 'in', 1.25],
    ['3/4"', 'in', 0.75],
    ['5\' 6"', 'ft', 5.5],
    ['5 ft 6 in', 'in', 66],
    [`12'-6"`, 'ft', 12.5],
    ['12’ 6”', 'ft', 12.5],
    ['12′6″', 'ft', 12.5],
    [`12' 6''`, 'ft', 12.5],
    ['12 ft. 6 in.', 'ft', 12.5],
    ['30 LF', 'ft', 30],
    ['1,200 gal', 'gal', 1200],
    ['10 m3/h', 'gpm', 10_000 / 60 / 3.785411784],
    ['10 L/min', 'gpm', 10 / 3.785411784],
    ['4 in', 'ft', 1 / 3],
    ['100 kPa', 'psi', 14.503774],
    ['10 m of water', 'ftw', 32.808399],
    ['10 m', 'ftw', 32.808399],
    ['1 acre', 'ft2', 43560],
    ['2 m2', 'ft2', 21.527821],
    ['0.75 kW', 'hp', 1.005766],
    ['2 tonne', 'lb', 4409.245244],
    ['12', 'ft', 12],
    ['1e3', 'ft', 1000],
    ['−5', 'ft', -5],
    ['120 mm', 'in', 120 / 25.4],
    ['3 cm', 'in', 3 / 2.54],
    ['2 yd3', 'yd3', 2],
    ['54 ft3', 'yd3', 2],
    ['230 V', 'V', 230],
    ['8 A', 'A', 8],
    ['500 W', 'hp', 0.670511],
    ['4 inHg', 'inHg', 4],
    ['50 lb', 'lb', 50],
    ['2 %', 'in_per_ft', 0.24],
    ['20 mm/m', 'in_per_ft', 0.24],
    ['0.18 kW', 'hp', 0.241384],
    // As the trade writes them.
    ['2 in/hr', 'in_per_h', 2],
    ['10 GPM', 'gpm', 10],
    ['60 gph', 'gpm', 1],
    ['1 HP', 'hp', 1],
    ['2000 SF', 'ft2', 2000],
    ['9 ft^2', 'ft2', 9],
    ['10 cy', 'yd3', 10],
    ['0.2 m3/s', 'gpm', (0.2 * 60_000) / 3.785411784],
    ['100 mmHg', 'inHg', 100 / 25.4],
    ['5 FT 6 IN', 'ft', 5.5],
    ['10 sq. ft', 'ft2', 10],
    ['10 cu. yd.', 'yd3', 10],
    ['10 FT OF WATER', 'psi', 29_890.6692 / 6894.757293168],
    ['150 pcf', 'lb_per_ft3', 150],
    ['2700 lb/cy', 'lb_per_ft3', 100],
    ['34 lpm', 'gpm', 34 / 3.785411784],
    ['2 lps', 'gpm', 120 / 3.785411784],
    ['5 FPS', 'fps', 5],
    ['5 ft/sec', 'fps', 5],
    ['4.7 in./hr', 'in_per_h', 4.7],
    ['1/4" per ft', 'in_per_ft', 0.25],
    ['1/4"/ft', 'in_per_ft', 0.25],
    ['0.02 ft/ft', 'in_per_ft', 0.24],
    ['2 percent', 'in_per_ft', 0.24],
    ['4" Hg', 'inHg', 4],
    ['20 psig', 'psi', 20],
    ['70°', 'F', 70],
    ['8.38 t', 'lb', 8380 / 0.45359237],
    ['85 gals', 'gal', 85],
    ['2 KGAL', 'gal', 2000],
    ['230 VAC', 'V', 230],
    ['6 foot 3 inches', 'ft', 6.25],
    // Signs that telephones and word processors put in.
    ['½ in', 'in', 0.5],
    ['1½″', 'in', 1.5],
    ['6½ in', 'in', 6.5],
    ['3⁄4 in', 'in', 0.75],
    ['1‑1/4 in', 'in', 1.25],
    ['12\u00a0ft', 'ft', 12],
    // A head is measured as the height of its water.
    ['21 ft 6 in', 'ftw', 21.5],
    ['-5 ft 6 in', 'ftw', -5.5],
    ["5'6", 'ft', 5.5],
    ['12 feet, 6 inches', 'ft', 12.5],
    ['50 meters', 'ft', 164.042],
    ['50 yd', 'ft', 150],
    ['10 gal/hour', 'gpm', 0.16666667],
    ['10 cfm', 'gpm', 74.805195],
    ['0.345 MPa', 'psi', 50.037997],
    ['1013.25 mbar', 'psi', 14.6959488],
    ['40 kN', 'lbf', 8992.3577],
    ['230v', 'V', 230],
    ['10 degF', 'deltaF', 10],
    ['60 ºF', 'F', 60],
    ['1:50', 'in_per_ft', 0.24],
    ['1 in 50', 'in_per_ft', 0.24],
    ['1/4" per foot', 'in_per_ft', 0.25],
    ['2 cm/m', 'in_per_ft', 0.24],
    ['120 in', 'ftw', 10],
    [`8' 11-7/8"`, 'in', 107.875],
    ['1 ha', 'ft2', 107_639.104],
    ['0.5 ac', 'ft2', 21_780],
    ['200 sq yd', 'ft2', 1800],
    ['18.5 kips', 'lb', 18_500],
    // NIST SP 811 B.8 (from memory): 1 lb/ft³ of weight is 157.0875 N/m³.
    ['18 kN/m3', 'lb_per_ft3', 18_000 / 157.0875],
    ['1.8 t/m³', 'lb_per_ft3', 1.8 * 62.42796],
    ['60 mm per hour', 'in_per_h', 60 / 25.4],
  ])('%s in %s', (text, unit, expected) => {
    const reading = readAs(text, unit)
    // Six or more figures are given above.
    expect(reading.ok && Math.abs(reading.value - expected) <= 1e-6 * Math.max(1, Math.abs(expected)), JSON.stringify(reading)).toBe(true)
  })
  it.each(['', 'twelve', '1,2,3', '1..2', '4 furlongs', '--1', '1/0', '5 6', 'm', '2026-01-31', '1e999', '0,750', '00,123 ft'])('%j is refused as a length', (text) => {
    expect(readAs(text, 'ft').ok).toBe(false)
  })
  it.each<[string, UnitName]>([
    ['5 gal', 'ft'],
    ['3 bar', 'gpm'],
    ['20 °C', 'psi'],
    ['5 ft', 'psi'],
    ['1.2°', 'in_per_ft'],
    ['10°', 'gpm'],
    ['1 m', 'gal'],
  ])('%s is no %s', (text, unit) => {
    expect(readAs(text, unit)).toEqual({ ok: false, reason: 'other quantity' })
  })
  it('a rate is no share: hours a day are not the waste of an order', () => {
    expect(readAs('3 h/day', undefined)).toEqual({ ok: false, reason: 'other quantity' })
    expect(readAs('0.1 in/in/F', undefined)).toEqual({ ok: false, reason: 'other quantity' })
  })
  it('reads numbers as people write them, and nothing else', () => {
    expect(['12', '1,200', '0.5', '.5', '3/4', '1-1/4', '-2', '1e-3'].map(parseNumber)).toEqual([12, 1200, 0.5, 0.5, 0.75, 1.25, -2, 0.001])
    expect(['1,2', '1/0', 'x', '', '1.2.3', '0x10', '١'].map(parseNumber)).toEqual(Array(7).fill(undefined))
  })
  it('knows the unit of a name', () => {
    expect([unitOf('flow_gpm'), unitOf('viscosity_ft2_per_s'), unitOf('count'), unitOf('before_stored')]).toEqual(['gpm', 'ft2_per_s', undefined, undefined])
  })
  it('a limit typed with its own unit is within the limit, in every field of every table', () => {
    let tried = 0
    for (const table of tableNames)
      for (const [name, field] of Object.entries(fieldsOf(table))) {
        const unit = unitOf(name)
        if (field.kind !== 'spec' || field.spec.kind !== 'number' || !unit || unit.startsWith('usd')) continue
        for (const limit of [field.spec.least, field.spec.most]) {
          expect(readAs(`${limit} ${symbolOf(name)}`, unit), `${table} ${name}`).toEqual({ ok: true, value: limit })
          tried++
        }
      }
    expect(tried).toBeGreaterThan(200)
    // 25.4 mm an inch, exactly (NIST SP 811).
    expect(readAs('101.6 mm', 'in')).toEqual({ ok: true, value: 4 })
    // 459.67 is taken off on the way: what it leaves in the last digits is no other temperature.
    expect([readAs('0 °C', 'F'), readAs('140 °F', 'C'), readAs('-40 C', 'F')].map((reading) => reading.ok && reading.value)).toEqual([32, 60, -40])
    // A slope of earth is said to one (OSHA 1926 Subpart P, Table B-1).
    expect(readAs('1.5:1', undefined)).toEqual({ ok: true, value: 1.5 })
    // As 29 CFR 1926 Subpart P, Appendix B, Table B-1 prints its slopes (from memory).
    for (const written of ['3/4:1', '¾:1', '3/4 to 1']) expect(readAs(written, undefined), written).toEqual({ ok: true, value: 0.75 })
    for (const written of ['1-1/2:1', '1 1/2:1', '1½:1']) expect(readAs(written, undefined), written).toEqual({ ok: true, value: 1.5 })
  })
})

describe('a nominal size as the trade writes it', () => {
  // Eighths of an inch in lowest terms: plain arithmetic.
  it.each<[string | number, string | undefined]>([
    [0.375, '3/8'],
    ['5/8 in', '5/8'],
    [0.25, '1/4'],
    ['1-1/2"', '1-1/2'],
    ['1-1/4″', '1-1/4'],
    ['1‑1/4', '1-1/4'],
    ['1¼', '1-1/4'],
    ['½ in', '1/2'],
    [2.875, '2-7/8'],
    [3, '3'],
    [0.3, undefined],
    [-1, undefined],
  ])('%s is %s', (raw, size) => {
    expect(nominalSize(raw)).toBe(size)
  })
})
