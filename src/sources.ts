/**
 * The bibliography. A figure cites one of these works and the place in it. The grade says how far the
 * figure may be trusted and travels with it to the sheet.
 */
const grades = ['standard', 'government', 'derived', 'handbook', 'house figure', 'common practice', 'from memory'] as const
export type Grade = (typeof grades)[number]
/** Whether one grade is trusted less than another. */
export const trustedLess = (one: Grade, other: Grade): boolean => grades.indexOf(one) > grades.indexOf(other)

interface Work {
  title: string
  publisher: string
  edition: string
  grade: Grade
}

const works = {
  definitions: { title: 'Exact definitions of US customary units in SI', publisher: 'NIST, Special Publication 811, Appendix B', edition: 'values from memory, exact by definition', grade: 'derived' },
  derivation: { title: 'Follows from geometry or from the steps above it', publisher: 'this project', edition: '', grade: 'derived' },
  office: { title: 'The office’s own table', publisher: 'the office', edition: '', grade: 'house figure' },
  practice: { title: 'Common practice, no source', publisher: 'the trade', edition: '', grade: 'common practice' },
  memory: { title: 'From memory, not read in a source', publisher: 'this project', edition: '', grade: 'from memory' },
  epaManual: { title: 'EPA/600/R-20/133, hydraulics of pipe networks, user manual', publisher: 'U.S. Environmental Protection Agency', edition: '2020', grade: 'government' },
  hiData: { title: 'Engineering Data Library', publisher: 'Hydraulic Institute', edition: 'state of 7 Oct 2025', grade: 'handbook' },
  fluidsLibrary: { title: 'fluids library, lists of ASTM D1785 and D2241 dimensions', publisher: 'C. Bell, open source', edition: 'state of 22 Jun 2026', grade: 'handbook' },
  astmD1785: { title: 'ASTM D1785 dimensions of PVC pipe, Schedule 40 and 80', publisher: 'ASTM International', edition: 'dimensions from memory, ratios checked', grade: 'from memory' },
  astmD2239: { title: 'ASTM D2239 polyethylene pipe controlled by inside diameter', publisher: 'ASTM International', edition: 'dimensions from memory, ratios checked', grade: 'from memory' },
  astmD2737: { title: 'ASTM D2737 polyethylene tubing, copper tube size', publisher: 'ASTM International', edition: 'walls from memory, ratio checked', grade: 'from memory' },
  astmD3034: { title: 'ASTM D3034 SDR 35 PVC sewer pipe (general reference page)', publisher: 'ASTM International', edition: '4 in read; other walls from memory', grade: 'handbook' },
  nec: { title: 'National Electrical Code (NFPA 70), tables restated by public pages', publisher: 'National Fire Protection Association', edition: '2011 and later', grade: 'standard' },
  osha1926: { title: '29 CFR 1926 Subpart P, Excavations', publisher: 'U.S. Occupational Safety and Health Administration', edition: 'current text', grade: 'government' },
  estimating: { title: 'Estimating in Building Construction, Fig. 9.1 and chapter 9', publisher: 'textbook (Dagostino; author from memory)', edition: 'as read in the course copy', grade: 'handbook' },
  navy: { title: 'Soil conversion table', publisher: 'U.S. Navy training course (listing)', edition: 'undated', grade: 'government' },
  calRecycle: { title: 'Material weights for estimates', publisher: 'CalRecycle, State of California', edition: 'as read', grade: 'government' },
  prismoid: { title: 'Volume of a tank pit by the prismoidal rule', publisher: 'civil engineering course page', edition: 'as read', grade: 'handbook' },
  femaP259: { title: 'FEMA P-259, Engineering Principles and Practices for Retrofitting Flood-Prone Residential Structures, buoyancy of tanks', publisher: 'Federal Emergency Management Agency', edition: '3rd edition, 2012, appendix C, page C-31', grade: 'government' },
  dd41: { title: 'Manhole flotation, DD-41', publisher: 'American Concrete Pipe Association (name from memory)', edition: 'as read', grade: 'handbook' },
  wac: { title: 'WAC 246-272B-05200, tank tightness', publisher: 'State of Washington', edition: 'effective 1 July 2011', grade: 'government' },
  astmC1227: { title: 'ASTM C1227 precast septic tanks, 9.2', publisher: 'ASTM International', edition: 'figures from memory', grade: 'from memory' },
  npca: { title: 'Vacuum test practice as tabulated by EPA 2002', publisher: 'National Precast Concrete Association', edition: 'from memory', grade: 'from memory' },
  minnesota: { title: 'Minn. R. 7080.2010', publisher: 'State of Minnesota', edition: 'figure from memory', grade: 'from memory' },
  slings: { title: 'Sling angle factors', publisher: 'lifting course (CPCS)', edition: 'as read', grade: 'handbook' },
  ppiThermal: { title: 'Handbook of Polyethylene Pipe, thermal movement', publisher: 'Plastics Pipe Institute (quoted)', edition: 'as quoted', grade: 'handbook' },
  plumbingCode: { title: 'National Standard Plumbing Code, Illustrated, Table 13.6.1', publisher: 'code sponsor (from memory)', edition: '2006', grade: 'standard' },
  chicago: { title: 'Municipal Code of Chicago, Table 18-29-704.1', publisher: 'City of Chicago', edition: 'current text', grade: 'government' },
  drawdown: { title: 'How to calculate pressure tank drawdown', publisher: 'The Driller', edition: '1 Feb 2006', grade: 'handbook' },
  surge: { title: 'Soils 456 class notes, chapter 8, water hammer', publisher: 'New Mexico State University', edition: 'undated', grade: 'handbook' },
  orifice: { title: 'Falling head through an orifice, restated for two tanks', publisher: 'textbook exercise and derivation', edition: 'checked by Runge–Kutta', grade: 'derived' },
  yield: { title: 'Sizing of rainwater tanks; yield after and before spillage', publisher: 'Fewkes and Butler; Jenkins (read at second hand)', edition: '1978, 2000', grade: 'handbook' },
  reliability: { title: 'Reliability analysis of rainwater tanks', publisher: 'Imteaz and others', edition: '2011', grade: 'handbook' },
  sequentPeak: { title: 'Water Resource Systems Planning and Management, sequent peak procedure', publisher: 'Loucks and van Beek, UNESCO', edition: 'from memory, recomputed', grade: 'from memory' },
  enHealth: { title: 'Guidance on use of rainwater tanks', publisher: 'enHealth Council, Australian Government', edition: '2010 edition, page of March 2011', grade: 'government' },
  channels: { title: 'Open-channel hydraulics: critical depth and entrance loss', publisher: 'any open-channel text; form of FHWA HDS-5 inlet control', edition: 'from memory', grade: 'from memory' },
  tm5813: { title: 'TM 5-813-9, water hammer, figure 4-5', publisher: 'U.S. Army', edition: 'as read', grade: 'government' },
  pe100Heat: { title: 'AS/NZS 4130 temperature factors of PE100, in a maker’s sheet', publisher: 'Standards Australia (restated)', edition: 'as read', grade: 'standard' },
  astmF2164: { title: 'ASTM F2164 field leak test of polyethylene pressure pipe with water', publisher: 'ASTM International', edition: 'figures from memory', grade: 'from memory' },
  awwaPe: { title: 'Polyethylene under recurring surge: within 1.5 times the pressure class', publisher: 'AWWA practice', edition: 'from memory', grade: 'from memory' },
  starts: { title: 'Tank selection: starts a day', publisher: 'Water Well Journal', edition: 'as read', grade: 'handbook' },
  moser: { title: 'Buried Pipe Design, H-20 wheel loads, pages 34 and 35', publisher: 'A. P. Moser', edition: 'as read', grade: 'handbook' },
  oregon: { title: 'Disinfecting a storage tank at seasonal start-up', publisher: 'Oregon Health Authority', edition: 'as read', grade: 'government' },
  alberta: { title: 'Disinfecting a cistern', publisher: 'Alberta Health Services', edition: 'as read', grade: 'government' },
  ghcn: { title: 'GHCN-Daily readme, by-station files and .dly', publisher: 'NOAA National Centers for Environmental Information', edition: 'version 3', grade: 'government' },
  dailyStep: { title: 'Selecting time scale resolution to evaluate rainwater tanks, Procedia Engineering 70', publisher: 'Campisano and Modica', edition: '2014 (abstract read)', grade: 'handbook' },
  ipcDrains: { title: 'International Plumbing Code, storm drains (restated)', publisher: 'International Code Council', edition: '2015 on, and to 2012', grade: 'standard' },
  osha1926Cranes: { title: '29 CFR 1926 Subpart CC, Cranes', publisher: 'U.S. Occupational Safety and Health Administration', edition: 'section numbers from memory', grade: 'from memory' },
  standardAir: { title: 'Standard atmosphere: pressure by height', publisher: 'ISO 2533', edition: 'from memory', grade: 'from memory' },
  runoffUnicef: { title: 'Highland water guide, rainwater catchment area', publisher: 'UNICEF', edition: 'undated', grade: 'handbook' },
  runoffStudy: { title: 'Roof selection for rainwater harvesting', publisher: 'Farreny and others', edition: '2011', grade: 'handbook' },
  twdb: { title: 'Texas Manual on Rainwater Harvesting', publisher: 'Texas Water Development Board', edition: '2005, from memory', grade: 'from memory' },
  trca: { title: 'Low impact development guide: rainwater harvesting, sizing', publisher: 'Toronto and Region Conservation Authority', edition: 'undated revisions', grade: 'government' },
  nrcs: { title: 'Conservation practice standard 516, livestock pipeline', publisher: 'USDA Natural Resources Conservation Service', edition: 'from memory', grade: 'from memory' },
  bedding: { title: 'Bedding of plastic drain pipe', publisher: 'public installation guidance', edition: 'as read', grade: 'handbook' },
} as const satisfies Record<string, Work>

export type WorkId = keyof typeof works
export const bibliography: Readonly<Record<WorkId, Work>> = works

export interface Citation {
  work: WorkId
  locator: string
  grade: Grade
}

/** Points to a place in a work. Give a grade only where the figure deserves less than its work. */
export function cite(work: WorkId, locator = '', grade: Grade = bibliography[work].grade): Citation {
  return { work, locator, grade }
}

/** Sources that are no publication are named in a few words. */
const inPlainWords: Partial<Record<WorkId, string>> = {
  office: 'the office’s own table', practice: 'common practice, no source', memory: 'from memory, not read', derivation: 'derived', definitions: 'exact unit definitions (NIST Special Publication 811)',
}

/** A source that is no publication. */
export const isPlainSource = (work: WorkId): boolean => inPlainWords[work] !== undefined

/** A citation as one line for a sheet: publisher, title, place. */
export function citationText({ work, locator }: Citation): string {
  const { title, publisher, edition } = bibliography[work]
  const plainly = inPlainWords[work]
  if (plainly) return locator ? `${plainly}: ${locator}` : plainly
  return [publisher, title, edition, locator].filter(Boolean).join(', ')
}

/** A citation with its grade, which sources that are no publication say themselves. */
export const gradedText = (source: Citation): string => (isPlainSource(source.work) ? citationText(source) : `${citationText(source)} (${source.grade})`)
