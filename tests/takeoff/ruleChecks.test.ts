/** No rule can fail in silence: names, functions, circles and units are checked before a job runs, and what fails all the same is raised. */
import { describe, expect, it } from 'vitest'
import { dimensionProblem } from '../../src/formula/dimensions.js'
import { formula } from '../../src/formula/formula.js'
import { physicalSize, unitOf } from '../../src/units.js'
import { assumable, assumableFields } from '../../src/takeoff/assumed.js'
import { signatureOf } from '../../src/takeoff/call.js'
import { calculations } from '../../src/calc/index.js'
import { cautionRules, crewStages } from '../../src/takeoff/cautions.js'
import { ruleProblem, sizeOfName } from '../../src/takeoff/checkRules.js'
import { ownRuleProblems } from '../../src/plan/ownRules.js'
import { circleIn } from '../support/circleIn.js'
import { crewSteps } from '../../src/takeoff/crewSteps.js'
import { startingOffice } from '../../src/takeoff/demo.js'
import { knownNames } from '../../src/takeoff/names.js'
import { pricedUnit, readItemRules, unitRatio } from '../../src/takeoff/itemRules.js'
import { readOffice } from '../../src/takeoff/office.js'
import { jobFields, sections } from '../../src/takeoff/officeTables.js'
import { foundFigures, results } from '../../src/takeoff/results/index.js'
import { days } from '../../src/takeoff/rowLists/days.js'
import { rowLists } from '../../src/takeoff/rowLists/index.js'
import { textsOf } from '../../src/takeoff/rowLists/rowList.js'
import { casesOf } from '../../src/takeoff/template.js'
import { readingRules } from '../../src/takeoff/readings.js'
import { jobSheets } from '../../src/plan/jobSheets.js'
import { standardPlaces } from '../../src/plan/places.js'
import { sheetKinds } from '../../src/plan/sheets/index.js'
import { made } from '../support/makings.js'
import { sumLabels } from '../../src/takeoff/sumWords.js'
import { logLoss, logVerdict } from '../../src/takeoff/vacuumLog.js'
import { verdictRules } from '../../src/takeoff/verdicts.js'
import { demoRows, leastRow, officeWith, takeoffOf } from '../support/office.js'

describe('what a customer reads of a verdict', () => {
  it('tells nobody to fill in a table or a row', () => {
    for (const { name, quoted, quotedShort } of verdictRules)
      for (const words of [...casesOf(quoted), ...casesOf(quotedShort)]) {
        expect(words, name).not.toMatch(/\[\[|\]\]|\((?:Jobs|Tanks|Without)\b|the sheet|daily rain|say so|the row/)
        expect(words, name).toMatch(/^(?:[A-Z{0-9].*[.}?]|\{\w+\})$/)
      }
    // Told to the office it stands there.
    expect(verdictRules.flatMap(({ says }) => casesOf(says)).filter((words) => words.includes('(Jobs, '))).not.toEqual([])
  })
})

describe('every rule of ours', () => {
  it('names known, texts that can be, units that fit, in conditions, words and figures', () => {
    const { looked, problems } = ownRuleProblems()
    expect(problems).toEqual([])
    expect(looked).toBeGreaterThan(results.length + 2 * verdictRules.length + 3 * crewSteps.length)
  })
  it('results and columns: no circle, and nothing rests on a name that nobody knows', () => {
    for (const list of [...rowLists, days]) {
      expect(circleIn(list.columns.flatMap(({ name, formula: text }) => (typeof text === 'string' ? [{ name, formula: text }] : [])))).toBeUndefined()
      for (const name of list.restsOn) expect(knownNames).toContain(name)
    }
    expect(circleIn([...results, ...verdictRules])).toBeUndefined()
  })
  it('cautions act at stages of the work, and every stage has steps', () => {
    for (const { name, stages } of cautionRules) expect(stages.length, name).toBeGreaterThan(0)
    for (const stage of crewStages)
      expect(
        crewSteps.some((step) => step.stage === stage),
        stage,
      ).toBe(true)
  })
})

describe('a mistake in a rule', () => {
  it('is named: a misspelt name, a stranger, a circle', () => {
    // A letter missing, too many, another one, two that changed places; two slips are no near name.
    for (const slip of ['PitDept_ft', 'PitDeptth_ft', 'PitDepsh_ft', 'PitDetph_ft'])
      expect(ruleProblem({ text: `${slip}>=5` }), slip).toBe(`no field or result is called ${slip}; did you mean PitDepth_ft`)
    expect(ruleProblem({ text: '2*TankCont' })).toBe('no field or result is called TankCont; did you mean TankCount')
    expect(ruleProblem({ text: '2*TankCt' })).toBe('no field or result is called TankCt')
    // A text that a name never has would leave a line out in silence.
    expect(ruleProblem({ text: 'SoilClass="rok"' })).toMatch(/^SoilClass is never "rok"; it is one of .*rock/)
    expect(ruleProblem({ text: 'IF(OR(TankCount>1,"lorries"<>Traffic),1,0)' })).toMatch(/^Traffic is never "lorries"; it is one of none, /)
    expect(ruleProblem({ text: 'PitWater="Wett"' })).toMatch(/^PitWater is never "Wett"; it is one of /)
    expect(ruleProblem({ text: 'LiftVerdict="stopp"' })).toBe('LiftVerdict is never "stopp"; it is one of stop, check, pass')
    expect(ruleProblem({ text: 'TankCount>"2"' })).toBe('TankCount is a number and never the text "2"')
    for (const text of ['SoilClass="ROCK"', 'PitWater<>"dry"', 'GroundwaterDepth_ft=""', 'Site="a shed"', 'PumpModel="Lark 75"'])
      expect(ruleProblem({ text }), text).toBeUndefined()
    expect(ruleProblem({ text: 'PitDepth>=5' })).toBe('no field or result is called PitDepth; did you mean PitDepth_ft')
    expect(ruleProblem({ text: 'WEBSERVICE("x")' })).toMatch(/^the function WEBSERVICE is not among/)
    expect(ruleProblem({ text: 'Tanks[constructor]', columns: true })).toBe('no field or result is called Tanks[constructor]')
    expect(
      circleIn([
        { name: 'First', formula: 'Second+1' },
        { name: 'Second', formula: 'Third*2' },
        { name: 'Third', formula: 'First' },
      ]),
    ).toEqual(['First', 'Second', 'Third', 'First'])
  })
  it.each([
    ['RoofArea_ft2+PitDepth_ft', 'adds length^2 and length'],
    ['Cover_ft+BedThickness_in', 'adds length in two different units'],
    ['IF(PitDepth_ft>Storage_gal,1,0)', 'compares length and length^3'],
    ['MAX(PitDepth_ft,HousePressure_psi)', 'takes one of length and weight length^-2'],
    ['FLOWVELOCITY(LineLength_ft,LineBore_in)', 'gives FLOWVELOCITY length where it takes gpm'],
    ['2^PitDepth_ft', 'raises to length, where a pure number belongs'],
  ])('does not fit its units: %s', (text, reason) => {
    expect(dimensionProblem(text, signatureOf, { sizeOf: sizeOfName })).toBe(reason)
  })
  it('24 makes days of hours, and a formula that could be one of two things is told that its unit is another', () => {
    const wears = (name: string) => physicalSize(name.split('_')[1]!)
    expect(dimensionProblem('Run_h/24', signatureOf, { gives: physicalSize('day')!, sizeOf: wears })).toBeUndefined()
    // 62.4 may be plain or a weight of water: cubic feet are no cubic yards either way, and no length at all.
    expect(dimensionProblem('62.4*Water_ft3', signatureOf, { gives: physicalSize('yd3')!, sizeOf: wears })).toMatch(/ in another unit$/)
    expect(dimensionProblem('62.4*Water_ft3', signatureOf, { gives: physicalSize('ft')!, sizeOf: wears })).toMatch(/, not length$/)
  })
  it('a bare number hides no unit: a width of 1.5 in a volume is found, a factor of 12 is a conversion', () => {
    // Two lengths and 1.5 are an area, not yd³.
    expect(ruleProblem({ text: 'WaterLineRun_ft*1.5*TrenchDepth_in/12/27', gives: 'TrenchDig_yd3' })).toBe('gives length^2, not length^3')
    expect(ruleProblem({ text: 'WaterLineRun_ft*TrenchWidth_ft*TrenchDepth_in/12/27', gives: 'TrenchDig_yd3' })).toBeUndefined()
    expect(ruleProblem({ text: 'WaterLineRun_ft*TrenchWidth_ft*TrenchDepth_in/27', gives: 'TrenchDig_yd3' })).toBe('gives length^3 in another unit')
    expect(ruleProblem({ text: 'TrenchDepth_in-1', gives: 'TrenchDepth_in' })).toBeUndefined()
  })
  it('that slips through is raised, never lost: a condition that fails holds, a verdict that fails stops', () => {
    const { design } = takeoffOf(leastRow)
    expect(design.holds('PitDept_ft>=5')).toBe(true)
    expect(design.holds('1/0>1')).toBe(true)
    expect(design.holds('PitDepth_ft<0')).toBe(false)
    expect(design.words('{PitDept_ft} deep')).toMatch(/#NAME\?/)
  })
})

describe('every cell function', () => {
  /** Those that no rule of a job calls, and why. */
  const apart: Readonly<Record<string, string>> = {
    WATERBALANCE: 'the daily balance walks the same days by year; dailyRain.test.ts holds the two equal',
    SUPPLYRELIABILITY: 'as WATERBALANCE',
    STORAGENEEDED: 'the count of tanks is proposed by the balance of each count, for no tank is sold by the gallon',
    SEQUENTPEAK: 'storage for means, an upper bound; a job stands on its days or says check',
    DRYSPELL: 'the longest run of days not fully met says it of the tanks, this one of the sky',
    ROOFRUNOFF: 'the office’s own sheet Roofs has the coefficients',
    LEADERCAPACITY: 'gutters and leaders are the roofer’s; a house’s drains begin at the ground',
    DARCYLOSS: 'the second opinion on FRICTIONLOSS, for who audits it',
    CONDUCTORRESISTANCE: 'stands inside VOLTAGEDROP and CONDUCTORSIZE',
    ORDERQUANTITY: 'a line of the takeoff rounds to its lot in the cell, so that a quantity typed over it is rounded too',
  }
  it('has its place in a job, or a reason', () => {
    const office = readOffice(startingOffice(true))
    const texts = [
      ...results.map((rule) => rule.formula),
      ...[...rowLists, days].flatMap(({ columns }) => columns.flatMap((column) => textsOf(column))),
      ...verdictRules.map((rule) => rule.formula),
      ...readingRules.flatMap(({ when, verdict }) => [when, verdict]),
      logLoss,
      logVerdict,
      ...office.tables.Items.flatMap(({ cells }) => [cells.Quantity, cells.When, cells.Price].map((cell) => String(cell ?? ''))),
    ]
    const called = new Set(texts.flatMap((text) => [...text.matchAll(/\b([A-Z]{5,})(?:\.[A-Z]+)?\(/g)].map((match) => match[1]!)))
    const without = calculations.map(({ id }) => id).filter((id) => !called.has(id))
    expect(without.sort()).toEqual(Object.keys(apart).sort())
  })
})

describe('what an empty field cannot turn', () => {
  it('without an inlet drain nobody asks how its ground rises; a shallow pit has its depth whatever the soil', () => {
    const { DownspoutRise_ft: _, ...row } = { ...leastRow, DownspoutRise_ft: 0, FrostDepth_in: 0 }
    const of = (more: object) => takeoffOf({ ...row, ...more }).design
    expect(of({ InletRun_ft: 60 }).verdict('DrainVerdict')).toBe('check')
    expect(of({ InletRun_ft: 60 }).verdict('FrostVerdict')).toBe('pass')
    expect(of({ InletRun_ft: 0 }).verdict('DrainVerdict')).toBe(of({ InletRun_ft: 0, DownspoutRise_ft: 0 }).verdict('DrainVerdict'))
    const { SoilClass: _soil, GroundwaterDepth_ft: _water, ...open } = row as Record<string, unknown>
    expect(takeoffOf(open).design.verdict('PitVerdict')).toBe('pass')
  })
  it('class A beside heavy traffic is said of a pit whose water was drawn down, too', () => {
    // 29 CFR 1926 Subpart P, Appendix A (b), Type A (ii), from memory.
    const { design } = takeoffOf({ ...leastRow, SoilClass: 'A', Traffic: 'trucks', GroundwaterDepth_ft: 5, PitDrained: 'yes' })
    expect(design.verdict('SoilVerdict')).toBe('check')
    expect(design.verdicts().find(({ name }) => name === 'SoilVerdict')?.words).toContain('heavy traffic shakes')
  })
  it('a flat drain in the frost is said to be flat', () => {
    const { design } = takeoffOf({ ...leastRow, FrostDepth_in: 36, InletRun_ft: 60, DrainSize_in: 8, DrainSlope_in_per_ft: 0.0625, DownspoutRise_ft: 0 })
    expect(design.verdict('FrostVerdict')).toBe('check')
    expect(design.verdicts().find(({ name }) => name === 'FrostVerdict')?.words).toContain('it does not run empty')
  })
})

describe('every name', () => {
  it('that ends in a unit ends in one of the list', () => {
    const unknown = [...knownNames].filter((name) => name.includes('_') && unitOf(name) === undefined)
    expect(unknown, 'a unit that src/units.ts has not, or an underscore in a name that has none').toEqual([])
  })
})

describe('words that are found again', () => {
  it('no section may be called what stands beside a sum of the takeoff', () => {
    for (const label of sumLabels([])) {
      const office = readOffice(officeWith({ Items: [...demoRows('Items'), { Code: 'X', Section: label, Description: 'X', Quantity: '1', Unit: 'each', Why: 'x', Price: '1' }] }))
      const refused = readItemRules(office).problems.some(({ column }) => column === 'Section')
      // A name of a section of ours is a section.
      expect(refused || sections.includes(label as never), label).toBe(true)
    }
  })
  it('entries of two sheets of a job are never under one code', () => {
    const prefixes = sheetKinds.flatMap(({ lists }) => lists?.flatMap(({ prefix }) => prefix ?? []) ?? [])
    expect(new Set(prefixes).size).toBe(prefixes.length)
  })
})

describe('units of items and prices', () => {
  const withItem = (change: Record<string, unknown>, prices = demoRows('Prices')) =>
    takeoffOf(leastRow, {
      Items: [...demoRows('Items'), { Code: 'NEW', Section: 'Test', Description: 'New', Quantity: '1', Unit: 'each', Why: 'a reason', Price: '5', ...change }],
      Prices: prices,
    })
  it('a quantity that is not of its Unit is refused at its cell', () => {
    expect(() => withItem({ Quantity: 'Dig_yd3', Unit: 'ft' })).toThrow(
      /Items, row \d+, Quantity: a formula .*of the dimension of its Unit; it gives length\^3, not length; got "Dig_yd3"/,
    )
    expect(() => withItem({ Quantity: 'BedThickness_in', Unit: 'ft' })).toThrow(/it gives length in another unit/)
    // Half a ton for each inlet: a bare number may carry the unit in an office's own rule.
    expect(withItem({ Quantity: '0.5*InletCount', Unit: 'ton' }).lines.some(({ code }) => code === 'NEW')).toBe(true)
  })
  it('a price for another unit is refused at its cell; one for a hundred of it is converted', () => {
    const priced = (Unit: string, Price_usd: number) => demoRows('Prices').map((row) => (row.Code === 'TAPE' ? { ...row, Unit, Price_usd } : row))
    expect(() => takeoffOf(leastRow, { Prices: priced('each', 4.5) })).toThrow(/Prices, row \d+, Unit: ft, as the item TAPE is counted.*got "each"/)
    const tape = takeoffOf(leastRow, { Prices: priced('100 ft', 4.5) }).lines.find(({ code }) => code === 'TAPE')!
    // $4.50 for 100 ft, ordered by the 1,000 ft.
    expect([tape.price, tape.order, tape.amount]).toEqual([0.045, 1000, 45])
    expect(pricedUnit('1,000 gal')).toEqual({ name: 'gal', count: 1000 })
    const ratio = (priced: string, counted: string) => unitRatio(pricedUnit(priced), pricedUnit(counted))
    // A load of 4,000 gal is four thousand-gallons; a US ton is 2,000 lb (NIST Handbook 44, from memory); pieces are no feet.
    expect([ratio('4000 gal', 'kgal'), ratio('gal', 'kgal'), ratio('lb', 'ton'), ratio('100 ft', 'ft')]).toEqual([4, 0.001, 0.0005, 100])
    expect([ratio('each', 'ft'), ratio('lb', 'gal'), ratio('load', 'job')]).toEqual([undefined, undefined, undefined])
  })
  it('formulas beyond Excel’s limits are refused', () => {
    // A long row of signs runs no reader out of room.
    expect(() => withItem({ Quantity: Array.from({ length: 3000 }, () => '1').join('+') })).toThrow(
      /Quantity: .*a formula of at most 2,000 names, numbers and signs can be read; this one has [56],\d{3}/,
    )
    expect(() => withItem({ Quantity: `${'('.repeat(70)}1${')'.repeat(70)}` })).toThrow(/Quantity: a formula of at most 8,192 characters and 64 levels of brackets/)
    // Brackets within a text open nothing.
    expect(withItem({ Quantity: `IF(TankModel="${'('.repeat(70)}",2,1)`, Unit: 'each' }).lines.some(({ code }) => code === 'NEW')).toBe(true)
    // Its names become places of cells: what fits as typed may not fit as written, and is told at the rule.
    const long = withItem({ Quantity: `TankCount${'+TankCount*0'.repeat(380)}`, Unit: 'each' })
    expect(() => jobSheets(long, standardPlaces(), 'native', made)).toThrow(
      /^Items, row \d+, Quantity: a formula of at most 8,192 characters .*split it into several items; got \d{4,} characters/,
    )
  })
})

describe('what was assumed', () => {
  const given = {
    InletRun_ft: 20,
    DownspoutRise_ft: 0,
    OverflowRun_ft: 20,
    WaterLineRun_ft: 90,
    PowerRun_ft: 100,
    WaterLineRise_ft: 5,
    RainIntensity_in_per_h: 1,
    GroundwaterDepth_ft: 60,
    SoilClass: 'C',
    FootingAway_ft: 20,
    FrostDepth_in: 0,
    OutfallDrop_ft: 6,
    HouseFlow_gpm: 8,
    HousePressure_psi: 45,
    BearingAllowed_psf: 4000,
  }
  /** The ground is asked more than the earth dug out asked of it, where an axle stands on a tank. */
  const besides: Readonly<Record<string, object>> = { BearingAllowed_psf: { Traffic: 'trucks' } }
  it('is a list of fields with a default, each with its flag', () => {
    expect(assumableFields).toEqual(Object.keys(given))
    for (const field of assumableFields) expect(jobFields[field]).toHaveProperty('default')
    expect(new Set(Object.values(assumable)).size).toBe(assumableFields.length)
    expect(foundFigures.map(({ name }) => name)).toContain('TieShare')
  })
  it.each(Object.keys(given))('no verdict that rests on %s passes where the row leaves it empty', (field) => {
    const row = { ...leastRow, ...given, ...besides[field], TankCount: 2 }
    const full = takeoffOf(row).design
    const { [field]: _left, ...rest } = row as Record<string, unknown>
    const bare = takeoffOf(rest).design
    const resting = verdictRules.filter(({ formula: text }) => formula(text).names.includes(assumable[field as keyof typeof assumable]))
    expect(resting.length).toBeGreaterThan(0)
    for (const { name } of resting) expect(bare.verdict(name as never), name).not.toBe('pass')
    // With everything given each of them can pass.
    expect(resting.some(({ name }) => full.verdict(name as never) === 'pass')).toBe(true)
    const words = bare.verdicts().find(({ name }) => name === resting[0]!.name)!.words
    expect(words).toMatch(/[Nn]ot given|not known|left empty|must fall|nobody has said/)
  })
})
