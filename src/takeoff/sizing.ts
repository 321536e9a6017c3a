/** What the tool proposes where a row leaves a choice empty: each choice stays an input, marked as sized. */
import { CABLE, leavesOut } from './chosenItems.js'
import { Design } from './design.js'
import type { CellValue } from './fields.js'
import { BELOW_FROST_IN } from './frost.js'
import type { Office, Row } from './office.js'
import { CRANE_RADII_FT, MOST_TANKS } from './officeTables.js'
import { tieShare, type Storm } from './stormSplit.js'

const DRAIN_SIZES = [4, 6, 8] as const
/** Water that would stand higher over the lids than this has long run off; how high is no figure for anybody. */
const FAR_ft = 3
const LEAST_TRENCH_IN = 36
/** As deep as the office digs, and so that the top of the line lies below the frost. */
const trenchDepth = (frost_in: number, outside_in: number): number =>
  Math.max(LEAST_TRENCH_IN, frost_in > 0 ? Math.ceil(frost_in + BELOW_FROST_IN + (Number.isFinite(outside_in) ? outside_in : 0)) : 0)

type Cells = Readonly<Record<string, CellValue>>
type Trial = (sized: Cells, found?: Cells) => Design

/** Works a job through, first sizing what its row leaves empty. `figures` are house figures typed over on the Design sheet; `like` is the same job with other inputs. */
export function designJob(office: Office, job: Row, figures: Readonly<Record<string, number>> = {}, like?: Design): Design {
  const sized: Record<string, CellValue> = {}
  let found: Cells = {
    OverflowCount: 1,
    TieShare: 0,
    BlockedAtInlet: 0,
    BlockedShare: 0,
    LayoutNote: '',
    PumpNote: '',
    // A pump that others set is fed all the same.
    PumpLeftOut: ['PUMP', CABLE].every((code) => leavesOut(office, job, code)) ? 1 : 0,
    ReliefLeftOut: leavesOut(office, job, 'RELIEF') ? 1 : 0,
  }
  const given = (name: string) => job.cells[name] !== null && job.cells[name] !== undefined
  let base = like
  const trial: Trial = (more = {}, moreFound = {}) => {
    const design = new Design(office, job, { ...sized, ...more }, figures, { ...found, ...moreFound }, base)
    // Trials differ in few choices from the first.
    base ??= design
    return design
  }
  if (!given('LineFittings')) sized.LineFittings = trial({}).single('LineFit') === 'CTS' ? 'CTS compression' : 'IPS insert'
  if (!given('TrenchDepth_in')) sized.TrenchDepth_in = trenchDepth(Number(job.cells.FrostDepth_in ?? 0), trial({}).number('LineOutside_in'))
  if (!given('TankCount')) sized.TankCount = fewestTanks(trial, Number(job.cells.WantedReliability), given('SecondModel') ? Number(job.cells.SecondCount) + 1 : 1)
  const layout = cheapestLayout(trial, given, job)
  Object.assign(sized, layout.sized)
  found = { ...found, ...layout.found }
  if (!given('PumpModel')) {
    const pump = firstPump(office, trial, Number(job.cells.Voltage_V))
    sized.PumpModel = pump.model
    found = { ...found, PumpNote: pump.note }
  }
  if (!given('PressureTank_gal')) sized.PressureTank_gal = nextPressureTank(office, trial({}).number('PressureTankNeeded_gal'))
  if (!given('CraneModel')) sized.CraneModel = firstCrane(office, trial({}))
  return trial({})
}

/** The fewest tanks that reach the wanted reliability; where none do, the fewest beyond which a tank brings next to nothing. */
function fewestTanks(trial: Trial, wanted: number, least: number): number {
  const reached: number[] = []
  const worth = trial({ TankCount: least }).number('TankWorth')
  for (let count = least; count <= MOST_TANKS; count++) {
    const reliability = trial({ TankCount: count }).number('SizingShare')
    if (reliability >= wanted) return count
    reached.push(reliability)
  }
  const last = reached.findIndex((reliability, at) => reached.slice(at + 1).every((more, further) => more - reliability < worth * (further + 1)))
  return least + Math.max(0, last)
}

interface Layout {
  sized: Cells
  found: Cells
  rise_ft: number
  rank: number
  weight: number
}
/** How much one layout asks for against another, without a price list: pipe by length and size, and ports. */
const weightOf = (design: Design, size: number): number =>
  design.number('DrainRun_ft') * (size / 4) ** design.number('DrainPricePower') + design.number('PortsUsed') * design.number('PortWorth_ft')

/** Drain size, inlet tanks and overflows: the cheapest that keep the storm under the lids; where none do, the lowest water and what would lower it. */
function cheapestLayout(trial: Trial, given: (name: string) => boolean, job: Row): Layout {
  const tanks = Number(job.cells.TankCount ?? trial({}).number('TankCount'))
  const sizes = given('DrainSize_in') ? [Number(job.cells.DrainSize_in)] : DRAIN_SIZES
  const isSplit = tanks > 1 && trial({}).catchments.some(({ inlet }) => inlet === 'next')
  const inletTanks = given('InletTanks') ? [Number(job.cells.InletTanks)] : isSplit ? [2] : tanks > 1 ? [1, 2] : [1]
  const split = splitOnce()
  let best: Layout | undefined
  let cheapest: Layout | undefined
  for (const DrainSize_in of sizes) {
    for (const InletTanks of inletTanks) {
      const sized: Record<string, CellValue> = {}
      if (!given('DrainSize_in')) sized.DrainSize_in = DrainSize_in
      if (!given('InletTanks')) sized.InletTanks = InletTanks
      const bare = trial(sized)
      const most = Math.max(1, bare.number('FarTankPorts') - bare.number('FarPorts') + (tanks > 1 ? bare.number('NextTankPorts') - bare.number('NextPorts') : 0))
      for (let OverflowCount = Math.min(most, Math.max(1, bare.number('InletPorts'))); OverflowCount <= most; OverflowCount++) {
        const found = overflows(trial, sized, OverflowCount, split)
        const design = trial(sized, found)
        // What no layout changes, as the earth over a drain or a port that reaches into the lid, is no reason to take another one.
        const verdicts = [design.bareVerdict('PortVerdict'), design.bareVerdict('TieVerdict')]
        const isChecked = design.bareVerdict('TieVerdict') === 'check' || OverflowCount < design.number('InletPorts')
        const rank = verdicts.includes('stop') ? 2 : isChecked ? 1 : 0
        const layout: Layout = { sized, found, rise_ft: design.number('StormRise_ft'), rank, weight: weightOf(design, DrainSize_in) }
        if (rank === 0) {
          if (!cheapest || layout.weight < cheapest.weight) cheapest = layout
          break
        }
        if (!best || rank < best.rank || (rank === best.rank && rank === 2 && layout.rise_ft < best.rise_ft)) best = layout
      }
    }
  }
  if (cheapest) return cheapest
  // A size that no table holds leaves nothing to try: its figures are errors, which are told by name.
  if (!best) return { sized: { DrainSize_in: sizes[0]!, InletTanks: inletTanks[0]! }, found: {}, rise_ft: NaN, rank: 2, weight: NaN }
  if (best.rank < 2) return best
  const design = trial(best.sized, best.found)
  const tried = given('DrainSize_in') ? `${sizes[0]} in drains` : 'drains of 4, 6 or 8 in'
  const room = Math.round((design.number('StormRise_ft') - design.number('AirSpace_ft')) * 100) / 100
  // Nothing is advised that was not tried: what the row gives is left open, and the water stands lower.
  const isLowerWithout = (name: string) => given(name) && cheapestLayout(trial, (other) => other !== name && given(other), job).rise_ft < best.rise_ft
  const larger = isLowerWithout('DrainSize_in') ? 'larger drains (Jobs, Drain size), ' : ''
  const second = tanks === 1 ? 'another tank for a second inlet, ' : isLowerWithout('InletTanks') ? 'a second inlet tank (Jobs, Inlet tanks), ' : ''
  const note = `No layout of ${tried} on ${inletTanks.length > 1 ? 'one or two inlet tanks' : inletTanks[0] === 1 ? 'one inlet tank' : 'two inlet tanks'} passes; the lowest water is ${room > FAR_ft ? 'far too high' : room > 0 ? `${room} ft too high` : 'low enough, but ports are missing'}. What changes it: ${larger}more or larger ports (Tanks, Upper ports and Port size), more room under the lid, ${second}or less roof on these tanks.`
  return { ...best, found: { ...best.found, LayoutNote: note } }
}

/** How storms divide, each worked out once: layouts that differ in their drains alone share it. */
function splitOnce(): (storm: Storm) => number {
  const known = new Map<string, number>()
  return (storm) => {
    const key = Object.values(storm).join(' ')
    const share = known.get(key) ?? tieShare(storm)
    known.set(key, share)
    return share
  }
}

/** How a storm divides with so many overflows, and with the worst one of them blocked. */
function overflows(trial: Trial, sized: Cells, OverflowCount: number, split: (storm: Storm) => number): Cells {
  const design = trial(sized, { OverflowCount })
  const storm = {
    far_gpm: design.number('FarFlow_gpm'),
    next_gpm: design.number('NextFlow_gpm'),
    portBore_in: design.number('PortBore_in'),
    losses: design.number('OverflowLosses'),
    tieHeadAtAll_ft: trial(sized, { OverflowCount, TieShare: 1 }).number('TieHead_ft'),
  }
  const atInlet = design.number('OverflowsAtInlet')
  const next = OverflowCount - atInlet
  const shareOf = (overflowsAtInlet: number, overflowsNext: number) => split({ ...storm, overflowsAtInlet, overflowsNext })
  const found: Record<string, CellValue> = { OverflowCount, TieShare: shareOf(atInlet, next), BlockedAtInlet: 0, BlockedShare: 0 }
  if (OverflowCount < 2) return found
  const cases = [...(atInlet > 0 ? [atInlet - 1] : []), ...(next > 0 ? [atInlet] : [])].map((BlockedAtInlet) => {
    const BlockedShare = shareOf(BlockedAtInlet, OverflowCount - 1 - BlockedAtInlet)
    return { BlockedAtInlet, BlockedShare, rise: trial(sized, { ...found, BlockedAtInlet, BlockedShare }).number('BlockedRise_ft') }
  })
  const worst = cases.reduce((one, other) => (other.rise > one.rise ? other : one))
  return { ...found, BlockedAtInlet: worst.BlockedAtInlet, BlockedShare: worst.BlockedShare }
}

/** The first pump of the table, for this voltage, that meets the duty, stops at the cut-out and leaves the line within its rating; one that passes all before one that is to be looked into. */
function firstPump(office: Office, trial: Trial, voltage_V: number): { model: CellValue; note: string } {
  const pumps = office.tables.Pumps.map((row) => ({ model: row.cells.Model ?? null, design: trial({ PumpModel: row.cells.Model ?? null }) }))
  const meets = pumps.filter(({ design }) => design.bareVerdict('DutyVerdict') === 'pass' && design.bareVerdict('SupplyVerdict') === 'pass')
  const othersOf = ({ design }: (typeof pumps)[number]) => (['SwitchVerdict', 'RatingVerdict', 'VelocityVerdict'] as const).map((name) => design.bareVerdict(name))
  const fit = meets.find((pump) => othersOf(pump).every((state) => state === 'pass')) ?? meets.find((pump) => !othersOf(pump).includes('stop'))
  if (fit ?? meets[0]) return { model: (fit ?? meets[0])!.model, note: '' }
  const onVoltage = pumps.filter(({ design }) => design.bareVerdict('SupplyVerdict') === 'pass')
  const candidates = onVoltage.length ? onVoltage : pumps
  const shortBy = ({ design }: (typeof pumps)[number]) => design.number('PumpShort_ftw')
  const nearest = candidates.reduce<(typeof pumps)[number] | undefined>((best, pump) => (best === undefined || shortBy(pump) < shortBy(best) ? pump : best), undefined)
  if (!nearest) return { model: null, note: '' }
  const { design } = nearest
  const round = (value: number) => Math.round(value * 10) / 10
  const lever = !onVoltage.length
    ? `on ${round(design.number('PumpVoltage_V'))} V, ${design.number('PumpPhases') === 3 ? 'three-phase' : 'single-phase'}: add a pump for ${voltage_V} V${design.number('PumpPhases') > design.number('SupplyPhases') ? ', single-phase,' : ''} to the sheet Pumps, or bring that supply`
    : shortBy(nearest) > 0
      ? `short by ${round(shortBy(nearest))} ft: a stronger pump, a larger line (${round(design.number('LineLoss_ftw'))} ft are lost in it), less flow or less pressure at the house`
      : `past the end of its curve, which stops at ${round(Math.max(...design.column('CurveFlow_gpm')))} gpm: a smaller pump, or more flow at the house`
  const duty = `${design.number('HouseFlow_gpm')} gpm at ${round(design.number('TotalHead_ftw'))} ft on ${voltage_V} V`
  return { model: nearest.model, note: `No pump of the table meets ${duty}; nearest: ${String(nearest.model)}, ${lever}.` }
}

/** The smallest listed tank that is large enough, the largest where none is; a whole gallon where none is listed. */
function nextPressureTank(office: Office, needed_gal: number): number {
  const volumes = office.tables.PressureTanks.map(({ cells }) => Number(cells.Volume_gal))
    .filter((volume) => volume > 0)
    .sort((one, other) => one - other)
  return volumes.find((volume) => volume >= needed_gal) ?? volumes.at(-1) ?? Math.min(1000, Math.max(1, Math.ceil(Number.isFinite(needed_gal) ? needed_gal : 1)))
}

/** The first crane that lifts a tank at its radius with room to spare, else the first that lifts it at all; the strongest there where none does. */
function firstCrane(office: Office, design: Design): CellValue {
  const [radius, load, share] = [design.number('PickRadius_ft'), design.number('PickLoad_lb'), design.number('CriticalLift')]
  const at = CRANE_RADII_FT.find((known) => radius <= known)
  const lifts = office.tables.Cranes.map(({ cells }) => ({ model: cells.Model ?? null, most: at === undefined ? 0 : Number(cells[`At${at}_lb`] ?? 0) }))
  const strongest = lifts.reduce<(typeof lifts)[number] | undefined>((best, crane) => (best === undefined || crane.most > best.most ? crane : best), undefined)
  return (lifts.find(({ most }) => most * share >= load) ?? lifts.find(({ most }) => most >= load) ?? strongest)?.model ?? null
}
