/**
 * The closed list of units. Every number in this project wears one of these as the last part of its
 * name (`length_ft`, `flow_gpm`); a name without a suffix from this list is a pure number or a text.
 * Each unit is its quantity and its size in that quantity's base unit. All sizes follow from exact
 * definitions (international foot and pound, US gallon of 231 cubic inches, standard gravity,
 * conventional mercury of 13 595.1 kg/m³ and water of 1000 kg/m³).
 */
import { shortNumber } from './rounding.js'

/** An inch is so many millimeters, by definition. */
export const MM_PER_INCH = 25.4
const FOOT_M = 0.3048
const INCH_M = FOOT_M / 12
const GALLON_M3 = 231 * INCH_M ** 3
const POUND_KG = 0.45359237
const GRAVITY = 9.80665
const PSI_PA = (POUND_KG * GRAVITY) / INCH_M ** 2
const FOOT_WATER_PA = FOOT_M * 1000 * GRAVITY
const INCH_MERCURY_PA = INCH_M * 13595.1 * GRAVITY
const HORSEPOWER_W = 550 * FOOT_M * POUND_KG * GRAVITY

export type Quantity =
  | 'length' | 'area' | 'volume' | 'flow' | 'head' | 'pressure' | 'weight' | 'force' | 'temperature'
  | 'temperature difference' | 'power' | 'voltage' | 'current' | 'velocity' | 'rain rate' | 'slope'
  | 'unit weight' | 'time' | 'angle' | 'resistance per length' | 'conductor area' | 'viscosity' | 'ratio' | 'money'
  | 'money rate' | 'use' | 'weight per volume' | 'concentration' | 'energy per volume' | 'rate of earthwork' | 'rate of trenching'
  | 'acceleration' | 'rate' | 'expansion' | 'share of a day'

interface Unit {
  /** How the unit is written for people. */
  symbol: string
  quantity: Quantity
  /** Size in the base unit of the quantity. */
  size: number
  /** Value of the base unit at this unit's zero; only temperatures have one. */
  zero?: number
  /** Other spellings accepted in a text. */
  also?: readonly string[]
}

const list = {
  ft: { symbol: 'ft', quantity: 'length', size: FOOT_M, also: ['foot', 'feet', 'lf', 'linear feet', "'"] },
  in: { symbol: 'in', quantity: 'length', size: INCH_M, also: ['inch', 'inches', '"'] },
  yd: { symbol: 'yd', quantity: 'length', size: 3 * FOOT_M, also: ['yds', 'yard', 'yards'] },
  m: { symbol: 'm', quantity: 'length', size: 1, also: ['meter', 'meters', 'metre', 'metres'] },
  cm: { symbol: 'cm', quantity: 'length', size: 0.01, also: ['centimeter', 'centimeters', 'centimetre', 'centimetres'] },
  mm: { symbol: 'mm', quantity: 'length', size: 0.001, also: ['millimeter', 'millimeters', 'millimetre', 'millimetres'] },
  ft2: { symbol: 'ft²', quantity: 'area', size: FOOT_M ** 2, also: ['sq ft', 'sqft', 'sf', 'square feet', 'square foot'] },
  in2: { symbol: 'in²', quantity: 'area', size: INCH_M ** 2, also: ['sq in', 'sqin', 'square inches'] },
  cm2: { symbol: 'cm²', quantity: 'area', size: 0.0001, also: ['sq cm', 'square centimeters', 'square centimetres'] },
  yd2: { symbol: 'yd²', quantity: 'area', size: 9 * FOOT_M ** 2, also: ['sq yd', 'sq yds', 'square yards'] },
  m2: { symbol: 'm²', quantity: 'area', size: 1, also: ['sq m', 'sqm', 'square meters', 'square metres'] },
  acre: { symbol: 'acre', quantity: 'area', size: 43560 * FOOT_M ** 2, also: ['acres', 'ac'] },
  ha: { symbol: 'ha', quantity: 'area', size: 10_000, also: ['hectare', 'hectares'] },
  gal: { symbol: 'gal', quantity: 'volume', size: GALLON_M3, also: ['gals', 'gallon', 'gallons', 'US gal', 'US gals', 'US gallon', 'US gallons'] },
  L: { symbol: 'L', quantity: 'volume', size: 0.001, also: ['l', 'litre', 'liter', 'litres', 'liters'] },
  m3: { symbol: 'm³', quantity: 'volume', size: 1, also: ['cu m', 'cubic meters', 'cubic metres'] },
  ft3: { symbol: 'ft³', quantity: 'volume', size: FOOT_M ** 3, also: ['cu ft', 'cf', 'cubic feet'] },
  in3: { symbol: 'in³', quantity: 'volume', size: INCH_M ** 3, also: ['cu in'] },
  yd3: { symbol: 'yd³', quantity: 'volume', size: 27 * FOOT_M ** 3, also: ['cu yd', 'cu yds', 'yds3', 'cy', 'cubic yard', 'cubic yards'] },
  gpm: { symbol: 'gpm', quantity: 'flow', size: GALLON_M3 / 60, also: ['gal/min', 'gal per min', 'gal/minute', 'gallons per minute', 'US gpm'] },
  gph: { symbol: 'gal/h', quantity: 'flow', size: GALLON_M3 / 3600, also: ['gph', 'gal/hr', 'gal/hour', 'gal per hour', 'gallons per hour'] },
  cfs: { symbol: 'ft³/s', quantity: 'flow', size: FOOT_M ** 3, also: ['cu ft/s', 'cfs'] },
  cfm: { symbol: 'ft³/min', quantity: 'flow', size: FOOT_M ** 3 / 60, also: ['cfm', 'cu ft/min'] },
  Lps: { symbol: 'L/s', quantity: 'flow', size: 0.001, also: ['l/s', 'lps'] },
  Lpmin: { symbol: 'L/min', quantity: 'flow', size: 0.001 / 60, also: ['l/min', 'lpm'] },
  m3ph: { symbol: 'm³/h', quantity: 'flow', size: 1 / 3600, also: ['m³/hr', 'cmh'] },
  m3ps: { symbol: 'm³/s', quantity: 'flow', size: 1 },
  ftw: { symbol: 'ft of water', quantity: 'head', size: FOOT_WATER_PA, also: ['ft', 'foot', 'feet', 'ft water'] },
  mw: { symbol: 'm of water', quantity: 'head', size: FOOT_WATER_PA / FOOT_M, also: ['m', 'm water'] },
  psi: { symbol: 'psi', quantity: 'pressure', size: PSI_PA, also: ['psig'] },
  psf: { symbol: 'lb/ft²', quantity: 'pressure', size: PSI_PA / 144, also: ['psf'] },
  kPa: { symbol: 'kPa', quantity: 'pressure', size: 1000, also: ['kpa', 'kilopascal', 'kilopascals'] },
  MPa: { symbol: 'MPa', quantity: 'pressure', size: 1_000_000, also: ['megapascal', 'megapascals'] },
  mbar: { symbol: 'mbar', quantity: 'pressure', size: 100, also: ['millibar', 'millibars', 'hPa'] },
  bar: { symbol: 'bar', quantity: 'pressure', size: 100000 },
  inHg: { symbol: 'inHg', quantity: 'pressure', size: INCH_MERCURY_PA, also: ['in Hg', 'inhg', 'in. Hg', '"Hg', '" Hg', 'inches of mercury'] },
  mmHg: { symbol: 'mmHg', quantity: 'pressure', size: 0.001 * 13595.1 * GRAVITY, also: ['mm Hg'] },
  lb: { symbol: 'lb', quantity: 'weight', size: POUND_KG, also: ['lbs', 'pound', 'pounds'] },
  kip: { symbol: 'kip', quantity: 'weight', size: 1000 * POUND_KG, also: ['kips'] },
  kg: { symbol: 'kg', quantity: 'weight', size: 1, also: ['kgs', 'kilogram', 'kilograms'] },
  ton: { symbol: 'ton', quantity: 'weight', size: 2000 * POUND_KG, also: ['tons', 'US ton', 'US tons'] },
  tonne: { symbol: 'tonne', quantity: 'weight', size: 1000, also: ['tonnes', 't', 'metric ton', 'metric tons'] },
  lbf: { symbol: 'lbf', quantity: 'force', size: POUND_KG * GRAVITY },
  N: { symbol: 'N', quantity: 'force', size: 1, also: ['newton', 'newtons'] },
  kN: { symbol: 'kN', quantity: 'force', size: 1000, also: ['kilonewton', 'kilonewtons'] },
  F: { symbol: '°F', quantity: 'temperature', size: 5 / 9, zero: 459.67 * (5 / 9), also: ['F', 'f', 'degF', 'deg F', 'degrees F', '°'] },
  C: { symbol: '°C', quantity: 'temperature', size: 1, zero: 273.15, also: ['C', 'c', 'degC', 'deg C', 'degrees C'] },
  deltaF: { symbol: '°F', quantity: 'temperature difference', size: 5 / 9, also: ['F', 'f', 'degF', 'deg F', 'degrees F', '°'] },
  deltaC: { symbol: '°C', quantity: 'temperature difference', size: 1, also: ['C', 'c', 'degC', 'deg C', 'degrees C'] },
  hp: { symbol: 'hp', quantity: 'power', size: HORSEPOWER_W, also: ['horsepower'] },
  kW: { symbol: 'kW', quantity: 'power', size: 1000, also: ['kw', 'kilowatt', 'kilowatts'] },
  W: { symbol: 'W', quantity: 'power', size: 1, also: ['w', 'watt', 'watts'] },
  V: { symbol: 'V', quantity: 'voltage', size: 1, also: ['v', 'volt', 'volts', 'vac', 'V AC'] },
  A: { symbol: 'A', quantity: 'current', size: 1, also: ['a', 'amp', 'amps', 'ampere', 'amperes'] },
  fps: { symbol: 'ft/s', quantity: 'velocity', size: FOOT_M, also: ['fps', 'ft/sec', 'ft per sec', 'feet per second'] },
  mps: { symbol: 'm/s', quantity: 'velocity', size: 1, also: ['m/sec'] },
  in_per_h: { symbol: 'in/h', quantity: 'rain rate', size: INCH_M / 3600, also: ['in/hr', 'in/hour', 'in per hr', 'in per hour', 'inches per hour', 'inches/hour', 'inches/hr', '"/h', '"/hr', 'iph'] },
  mm_per_h: { symbol: 'mm/h', quantity: 'rain rate', size: 0.001 / 3600, also: ['mm/hr', 'mm/hour', 'mm per h', 'mm per hr', 'mm per hour'] },
  in_per_ft: { symbol: 'in/ft', quantity: 'slope', size: 1 / 12, also: ['"/ft', '" per ft', '" per foot', 'in/foot', 'in per ft', 'in per foot', 'inch/foot', 'inch per foot', 'inches per foot'] },
  mm_per_m: { symbol: 'mm/m', quantity: 'slope', size: 0.001, also: ['mm per m'] },
  cm_per_m: { symbol: 'cm/m', quantity: 'slope', size: 0.01, also: ['cm per m'] },
  ft_per_ft: { symbol: 'ft/ft', quantity: 'slope', size: 1, also: ['m/m', 'ft per ft'] },
  percent_fall: { symbol: '%', quantity: 'slope', size: 0.01, also: ['percent', 'pct'] },
  percent: { symbol: '%', quantity: 'ratio', size: 0.01, also: ['percent', 'pct'] },
  lb_per_ft3: { symbol: 'lb/ft³', quantity: 'unit weight', size: POUND_KG / FOOT_M ** 3, also: ['pcf', 'lbs/ft3', 'lb/cu ft', 'lbs/cu ft'] },
  lb_per_yd3: { symbol: 'lb/yd³', quantity: 'unit weight', size: POUND_KG / (27 * FOOT_M ** 3), also: ['lbs/yd3', 'lb/cy', 'lbs/cy', 'lb/cu yd', 'lbs/cu yd'] },
  kg_per_m3: { symbol: 'kg/m³', quantity: 'unit weight', size: 1 },
  kN_per_m3: { symbol: 'kN/m³', quantity: 'unit weight', size: 1000 / GRAVITY },
  t_per_m3: { symbol: 't/m³', quantity: 'unit weight', size: 1000, also: ['tonne/m3'] },
  s: { symbol: 's', quantity: 'time', size: 1, also: ['sec'] },
  min: { symbol: 'min', quantity: 'time', size: 60 },
  h: { symbol: 'h', quantity: 'time', size: 3600, also: ['hr', 'hrs', 'hour', 'hours'] },
  day: { symbol: 'days', quantity: 'time', size: 86400, also: ['day'] },
  days: { symbol: 'days', quantity: 'time', size: 86400 },
  deg: { symbol: '°', quantity: 'angle', size: 1, also: ['deg', 'degree', 'degrees'] },
  ohm_per_kft: { symbol: 'ohm/1000 ft', quantity: 'resistance per length', size: 1 },
  cmil: { symbol: 'circular mil', quantity: 'conductor area', size: 1 },
  ft2_per_s: { symbol: 'ft²/s', quantity: 'viscosity', size: FOOT_M ** 2 },
  per_F: { symbol: 'in/in/°F', quantity: 'expansion', size: 1 },
  gal_per_day: { symbol: 'gal/day', quantity: 'use', size: GALLON_M3 / 86400, also: ['gpd', 'gal per day', 'gallons per day', 'gallons/day'] },
  L_per_day: { symbol: 'L/day', quantity: 'use', size: 0.001 / 86400 },
  pint: { symbol: 'pints', quantity: 'volume', size: GALLON_M3 / 8, also: ['pint'] },
  quart: { symbol: 'quarts', quantity: 'volume', size: GALLON_M3 / 4, also: ['quart'] },
  kgal: { symbol: 'kgal', quantity: 'volume', size: 1000 * GALLON_M3, also: ['1000 gal', '1,000 gal'] },
  mg_per_L: { symbol: 'mg/L', quantity: 'concentration', size: 1, also: ['ppm'] },
  per_day: { symbol: 'a day', quantity: 'rate', size: 1 / 86400 },
  h_per_day: { symbol: 'h/day', quantity: 'share of a day', size: 1 / 24 },
  kWh_per_kgal: { symbol: 'kWh/1000 gal', quantity: 'energy per volume', size: 3.6e6 / (1000 * GALLON_M3) },
  fps2: { symbol: 'ft/s²', quantity: 'acceleration', size: FOOT_M },
  yd3_per_h: { symbol: 'yd³/h', quantity: 'rate of earthwork', size: (27 * FOOT_M ** 3) / 3600 },
  yd3_per_day: { symbol: 'yd³/day', quantity: 'rate of earthwork', size: (27 * FOOT_M ** 3) / 86400 },
  ft_per_h: { symbol: 'ft/h', quantity: 'rate of trenching', size: FOOT_M / 3600 },
  usd: { symbol: '$', quantity: 'money', size: 1 },
  usd_per_h: { symbol: '$/h', quantity: 'money rate', size: 1 / 3600 },
} as const satisfies Record<string, Unit>

export type UnitName = keyof typeof list
const unitByName: Readonly<Record<UnitName, Unit>> = list
export const unitNames = Object.keys(list) as UnitName[]

/** The unit that a name wears after its first underscore, or undefined for a pure number or a text. */
export function unitOf(name: string): UnitName | undefined {
  const cut = name.indexOf('_')
  const suffix = cut < 0 ? '' : name.slice(cut + 1)
  return Object.hasOwn(list, suffix) ? (suffix as UnitName) : undefined
}

/** The name without its unit: what the argument is called in a cell's help. */
export function bareName(name: string): string {
  return unitOf(name) ? name.slice(0, name.indexOf('_')) : name
}

/** How the unit of a name is written for people; empty for a pure number. */
export function symbolOf(name: string): string {
  const unit = unitOf(name)
  return unit ? unitByName[unit].symbol : ''
}

/** Decimals that a value is shown with, by its unit; pure numbers and the rest take two. */
const shownDecimals: Partial<Record<UnitName, number>> = {
  gal: 0, lb: 0, lbf: 0, cmil: 0, gpm: 1, ft: 1, ftw: 1, V: 1, A: 1, psi: 0, yd3: 1, ft2: 0, in2: 0, ft3: 0, gal_per_day: 0, day: 0, days: 0, min: 1, psf: 0, kgal: 1, pint: 1, mg_per_L: 0, per_day: 0, in_per_ft: 4,
}
export const decimalsOf = (name: string): number => shownDecimals[unitOf(name)!] ?? 2

/** Exact conversion between two units of one quantity. */
export function convert(value: number, from: UnitName, to: UnitName): number {
  const source = unitByName[from]
  const target = unitByName[to]
  if (!sameQuantity(source, target)) throw new RangeError(`${source.symbol} is no unit of ${target.quantity}.`)
  return (value * source.size + (source.zero ?? 0) - (target.zero ?? 0)) / target.size
}

/** A head of water is a pressure seen as a height: the two convert into each other. */
function sameQuantity(one: Unit, other: Unit): boolean {
  const kind = (unit: Unit) => (unit.quantity === 'head' ? 'pressure' : unit.quantity)
  return kind(one) === kind(other)
}

/** "5 ft" is a head only where a head is asked for; as a pressure it must say "5 ft of water". */
const isWrittenOut = (name: UnitName, spelling: string): boolean => unitByName[name].quantity !== 'head' || spelling.toLowerCase() === plainUnitText(unitByName[name].symbol)

/** A comma parts thousands, and never what begins with 0: "0,750" is somebody's 0.75. */
const plainNumber = /^[-+]?(?:[1-9]\d{0,2}(?:,\d{3})+|\d+)?(?:\.\d+)?(?:[eE][-+]?\d+)?$/
const mixedFraction = /^([-+]?)(?:(\d+)[\s-]+)?(\d+)\/(\d+)$/

/** Text as a keyboard writes it: telephones and word processors have signs of their own for fractions, feet, inches, hyphens and spaces. */
export const plainText = (text: string): string =>
  text
    .replace(/(\d)\s*(?=[¼-¾⅐-⅞])/g, '$1 ')
    .replace(/[¼-¾⅐-⅞\u00a0\u202f]/g, (sign) => sign.normalize('NFKC'))
    .replace(/\u2044/g, '/')
    .replace(/[\u00ba\u02da]/g, '°')
    .replace(/[\u2010-\u2013\u2212]/g, '-')
    .replace(/[‘’′]/g, "'")
    .replace(/[“”″]|''/g, '"')
    .trim()

/** A number as people write it: 12, 1,200, 0.5, 3/4, 1-1/4. Undefined when the text is no number. */
export function parseNumber(text: string): number | undefined {
  const trimmed = plainText(text)
  const fraction = mixedFraction.exec(trimmed)
  if (fraction) {
    const value = Number(fraction[2] ?? 0) + Number(fraction[3]) / Number(fraction[4])
    return Number.isFinite(value) ? (fraction[1] === '-' ? -value : value) : undefined
  }
  if (!/\d/.test(trimmed) || !plainNumber.test(trimmed)) return undefined
  const value = Number(trimmed.replace(/,/g, ''))
  return Number.isFinite(value) ? value : undefined
}

function plainUnitText(text: string): string {
  return text.trim().replace(/²/g, '2').replace(/³/g, '3').replace(/\^(?=\d)/g, '').replace(/°\s*(?=[fc]$)/gi, '').replace(/\.(?=[\s/]|$)/g, '').replace(/\s+/g, ' ').trim()
}

/** Every spelling of a unit, tidied once. Several units may share one ("ft" is a length and a head). */
const unitsBySpelling = new Map<string, UnitName[]>()
for (const name of unitNames) {
  const unit = unitByName[name]
  for (const spelling of new Set([name, unit.symbol, ...(unit.also ?? [])].map(plainUnitText))) {
    unitsBySpelling.set(spelling, [...(unitsBySpelling.get(spelling) ?? []), name])
  }
}

/** The units that a spelling may mean; of more than one letter its capitals tell nothing ("10 GPM"). */
const unitsSpelled = (text: string): readonly UnitName[] | undefined => {
  const spelling = plainUnitText(text)
  return unitsBySpelling.get(spelling) ?? (spelling.length > 1 ? unitsInSmallLetters.get(spelling.toLowerCase()) : undefined)
}
const unitsInSmallLetters = new Map<string, UnitName[]>()
for (const name of unitNames)
  // Names of ours, as mw, are nobody's spelling.
  for (const spelling of new Set([unitByName[name].symbol, ...(unitByName[name].also ?? [])].map((text) => plainUnitText(text).toLowerCase())))
    if (spelling.length > 1) unitsInSmallLetters.set(spelling, [...(unitsInSmallLetters.get(spelling) ?? []), name])

/** The unit that a text alone means, a length before a head; undefined for what is no unit ("each", "load"). */
export const unitNamed = (text: string): UnitName | undefined => unitsSpelled(text)?.find((name) => unitByName[name].quantity !== 'head')

export type Reading = { ok: true; value: number } | { ok: false; reason: 'no number' | 'unknown unit' | 'other quantity' | 'inches' }

const numberThenUnit = /^([-+]?[\d.,]+(?:[eE][-+]?\d+)?(?:[\s-]+\d+\/\d+|\/\d+)?)\s*(.*)$/

/**
 * Reads a text such as "45 m", "1-1/4 in", "5 ft 6 in" or "12" as a number in the wanted unit.
 * A text without a unit is already in it.
 */
export function readAs(text: string, wanted: UnitName | undefined): Reading {
  const written = plainText(text)
  const parts = numberThenUnit.exec(written)
  if (!parts) return { ok: false, reason: 'no number' }
  const feetAndInches = /^([-+]?)(\d+)\s*(?:ft\.?|foot|feet|')[\s,-]*(\d+(?:\.\d+)?|\d+\/\d+|\d+[\s-]\d+\/\d+)\s*(?:in\.?|inch|inches|")?$/i.exec(written)
  if (feetAndInches && wanted && ['length', 'head'].includes(unitByName[wanted].quantity)) {
    const inches = parseNumber(feetAndInches[3]!)
    // More of them is a slip: 8' 66" may be 8' 6", and 1'200 a thousand.
    if (inches !== undefined && (inches >= 12 || /^\d{3}/.test(feetAndInches[3]!))) return { ok: false, reason: 'inches' }
    const sum_in = Number(feetAndInches[2]) * 12 + (inches ?? NaN)
    if (inches !== undefined) return { ok: true, value: shortNumber(measured(feetAndInches[1] === '-' ? -sum_in : sum_in, 'in', wanted)) }
  }
  // A fall is said as one in so many, a slope of earth as so many to one.
  const ratio = /^(\d+(?:\.\d+)?|\.\d+|(?:\d+[\s-])?\d+\/\d+)\s*(?::|in|to)\s*(\d+(?:\.\d+)?)$/i.exec(written)
  const run = ratio && parseNumber(ratio[1]!)
  if (ratio && run !== null && run !== undefined && Number(ratio[2]) > 0) {
    const share = run / Number(ratio[2])
    if (wanted && unitByName[wanted].quantity === 'slope') return { ok: true, value: shortNumber(convert(share, 'ft_per_ft', wanted)) }
    if (wanted === undefined && Number(ratio[2]) === 1) return { ok: true, value: share }
  }
  const value = parseNumber(parts[1]!)
  if (value === undefined) return { ok: false, reason: 'no number' }
  const spelling = plainUnitText(parts[2]!)
  if (spelling === '') return { ok: true, value }
  const candidates = unitsSpelled(spelling)
  if (!candidates) return { ok: false, reason: 'unknown unit' }
  const fitting =
    candidates.find((name) => wanted !== undefined && unitByName[name].quantity === unitByName[wanted].quantity) ??
    candidates.find((name) => (wanted === undefined ? unitByName[name].quantity === 'ratio' : isWrittenOut(name, spelling) && sameQuantity(unitByName[name], unitByName[wanted])))
  if (fitting) return { ok: true, value: wanted === undefined ? shortNumber(value * unitByName[fitting].size) : shortNumber(convert(value, fitting, wanted), (unitByName[wanted].zero ?? 0) / unitByName[wanted].size) }
  const height = candidates.find((name) => unitByName[name].quantity === 'length')
  if (height && wanted && unitByName[wanted].quantity === 'head') return { ok: true, value: shortNumber(measured(value, height, wanted)) }
  return { ok: false, reason: 'other quantity' }
}

/** A length, or a head that was measured as the height of its water. */
const measured = (value: number, from: UnitName, wanted: UnitName): number =>
  unitByName[wanted].quantity === 'head' ? convert(convert(value, from, 'ft'), 'ftw', wanted) : convert(value, from, wanted)

/** Exponents over length, weight, time, money and what stands for itself (volts, amperes, degrees). Weight and force are one here. */
export type Dimensions = Readonly<Record<string, number>>
export interface PhysicalSize {
  dimensions: Dimensions
  /** How large one of the unit is, in the base of its dimensions. */
  size: number
}

const dimensionsOf: Readonly<Record<Quantity, Dimensions>> = {
  length: { length: 1 }, area: { length: 2 }, volume: { length: 3 }, flow: { length: 3, time: -1 }, head: { length: 1 },
  pressure: { weight: 1, length: -2 }, weight: { weight: 1 }, force: { weight: 1 }, temperature: { temperature: 1 }, 'temperature difference': { temperature: 1 },
  power: { power: 1 }, voltage: { voltage: 1 }, current: { current: 1 }, velocity: { length: 1, time: -1 }, 'rain rate': { length: 1, time: -1 }, slope: {},
  'unit weight': { weight: 1, length: -3 }, time: { time: 1 }, angle: { angle: 1 }, 'resistance per length': { resistance: 1 }, 'conductor area': { conductor: 1 },
  viscosity: { length: 2, time: -1 }, ratio: {}, money: { money: 1 }, 'money rate': { money: 1, time: -1 }, use: { length: 3, time: -1 },
  'weight per volume': { weight: 1, length: -3 }, concentration: { concentration: 1 }, 'energy per volume': { weight: 1, length: -2 },
  'rate of earthwork': { length: 3, time: -1 }, 'rate of trenching': { length: 1, time: -1 }, acceleration: { length: 1, time: -2 }, rate: { time: -1 }, expansion: { temperature: -1 }, 'share of a day': {},
}

/** The size of a unit over the bases above; undefined for a name that is no unit. */
export function physicalSize(name: string): PhysicalSize | undefined {
  if (!Object.hasOwn(list, name)) return undefined
  const { quantity, size } = unitByName[name as UnitName]
  const dimensions = dimensionsOf[quantity]
  // Forces and pressures are kept in newtons; a pound of force counts as the weight that it holds, a head as its height of water.
  const inWeight = quantity === 'force' || quantity === 'pressure' || quantity === 'energy per volume' ? GRAVITY : quantity === 'head' ? 1000 * GRAVITY : 1
  return { dimensions, size: size / inWeight }
}
