/** The head of the crew sheet: may it begin, where is it, the facts of the job, what others set, and the drawings. */
import { SPANISH_LEFT_OUT, SPANISH_NOTE, spanishDoNotStart, spanishFacts } from '../../takeoff/spanish.js'
import type { Words } from '../../takeoff/template.js'
import { planPicture } from '../drawing/planPicture.js'
import { sectionPicture } from '../drawing/sectionPicture.js'
import { openStops } from '../stopAnswers.js'
import { leftOutWords, measureOf, SET_BY_OTHERS } from '../words.js'
import { crewColumns as columns, type CrewDraft } from './crewDraft.js'
import { DO_NOT_START_YET } from './crewOwnWords.js'

/** For who reads no further. */
export const facts: readonly (readonly [label: string, words: Words])[] = [
  ['PIT', 'bottom {PitLength_ft} x {PitWidth_ft}, top {PitTopLength_ft} x {PitTopWidth_ft}, {PitDepth_ft} deep, walls as class {PitSoil}, trench to {DeepestTrench_ft}'],
  [
    'TANKS',
    [
      ['TankCount=1', '{TankCount|tank|tanks}, {HeaviestTank_lb}: {Models}'],
      ['', '{TankCount|tank|tanks}, up to {HeaviestTank_lb}, {TankGap_in} apart: {Models}'],
    ],
  ],
  ['CRANE', 'radius {PickRadius_ft}, {PickLoad_lb} on the hook: {CraneWords}'],
  [
    'WATER',
    [
      ['PitWater="not known"', 'groundwater not known; an empty tank floats in {FloatDepth_ft} of water round it'],
      ['', 'groundwater at {GroundwaterDepth_ft}; an empty tank floats in {FloatDepth_ft} of water round it'],
    ],
  ],
  [
    'HEIGHTS',
    [
      ['TankCount=1', 'below ground: lid {LidTop_ft:2}, bed {BedTop_ft:2}, pit {PitBottom_ft:2}; inverts of the ports {PortInvert_ft:2}'],
      ['', 'below ground: lids {LidTop_ft:2}, bed {BedTop_ft:2}, pit {PitBottom_ft:2}; inverts of the ports {PortInvert_ft:2}'],
    ],
  ],
  [
    'CENTERS',
    [
      ['TankCount=1', 'below ground, to the center of the pipe: line {LineCentre_ft:2}'],
      ['', 'below ground, to the center of the pipe: line {LineCentre_ft:2}, ties {TieCentre_ft:2}'],
    ],
  ],
  ['RESCUE', 'address, nearest hospital, rescue: ______________________   call before digging: 811'],
]

/** Letters that a line beside a label holds. */
const LONGEST_FACT = 90
/** Words in lines that are not cut. */
const inLines = (words: string): string[] => words.match(new RegExp(`\\S.{0,${LONGEST_FACT - 1}}(?=\\s|$)|\\S{1,${LONGEST_FACT}}`, 'g')) ?? []

/** Points that the columns left of the plan, and from it on, are wide, less what programs print them narrower. */
const [SECTION_WIDTH, PLAN_WIDTH] = [325, 165] as const

export function putHead(draft: CrewDraft): void {
  const { takeoff, design } = draft.job
  draft.next()
  if (draft.isSpanish) draft.line('siteOther', SPANISH_NOTE)
  if (openStops(takeoff)) draft.line('hazard', DO_NOT_START_YET, spanishDoNotStart.atHead)
  putSite(draft, String(design.single('Site') ?? ''))
  for (const [label, words] of facts) putFact(draft, label, words)
  if (takeoff.leftOut.length) {
    const out = leftOutWords(takeoff)
    draft.line(
      'site',
      `${SET_BY_OTHERS}${out}. Where a step names one, see that it is there before the box is ticked.`,
      `${SPANISH_LEFT_OUT}${out}. Donde un paso lo nombre, vea que esté antes de marcar la casilla.`,
    )
  }
  draft.next()
  const measure = measureOf(design)
  draft.draw(
    [columns.box, sectionPicture(design, measure), { size: 10.5, width: SECTION_WIDTH, mostHeight: 110 }],
    [columns.hold, planPicture(design, measure), { size: 10.5, width: PLAN_WIDTH, mostHeight: 110 }],
  )
}

/** The title may be cut: whoever calls for help reads the whole of it here. */
function putSite(draft: CrewDraft, site: string): void {
  inLines(site).forEach((line, at) => {
    if (at === 0) draft.put(columns.box, 'siteLabel', 'SITE')
    draft.put(columns.text, 'siteFact', line, { format: 'text' })
    draft.next()
  })
}

function putFact(draft: CrewDraft, label: string, words: Words): void {
  draft.put(columns.box, 'siteLabel', label)
  draft.words('siteFact', words)
  draft.next()
  if (!draft.isSpanish) return
  const [other, otherWords] = spanishFacts[label]!
  draft.put(columns.box, 'siteLabel', other)
  draft.words('siteFact', otherWords)
  draft.next()
}
