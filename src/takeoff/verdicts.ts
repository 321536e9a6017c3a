/** Verdicts on a job: a word from a formula, the limit behind it, and its source. */
import { cite, type Citation } from '../sources.js'

export interface VerdictRule {
  name: string
  label: string
  /** Gives "pass", "check" or "stop". */
  formula: string
  /** What was compared with what; braces take in a field or result. */
  says: string
  source: Citation
}
const verdict = (name: string, label: string, formula: string, says: string, source: Citation): VerdictRule => ({ name, label, formula, says, source })

export const verdictRules: readonly VerdictRule[] = [
  verdict('StorageVerdict', 'Tank volume', 'IF(Reliability>=WantedReliability,"pass","check")', 'TankCount {TankCount}: {Storage_gal} meet {Reliability%} of the demand; {WantedReliability%} is wanted.', cite('reliability', 'wanted reliability is the owner’s choice')),
  verdict('VelocityVerdict', 'Velocity in the water line', 'IF(LineVelocity_fps<=5,"pass","check")', '{LineVelocity_fps} at {HouseFlow_gpm}; at most 5 ft/s.', cite('nrcs', '5 ft/s in plastic pipelines')),
  verdict('RatingVerdict', 'Pipe rating', 'IF(LineRating_psi<160,"stop",IF(LineRating_psi>=ShutOff_psi,"pass","stop"))', 'The pump can reach {ShutOff_psi}; the line is rated {LineRating_psi}, 160 psi at least.', cite('practice', '160 psi polyethylene at least; rating not below the shut-off pressure')),
  verdict('DutyVerdict', 'Pump duty', 'IF(PumpHead_ftw>=TotalHead_ftw,"pass","stop")', 'At {HouseFlow_gpm} the pump gives {PumpHead_ftw}; {TotalHead_ftw} is needed.', cite('hiData', 'section I-A, system head')),
  verdict('SupplyVerdict', 'Pump voltage', 'IF((Voltage_V>=0.95*PumpVoltage_V)*(Voltage_V<=1.05*PumpVoltage_V)=1,"pass","stop")', 'The circuit is {Voltage_V}, the pump {PumpVoltage_V}.', cite('practice', 'circuit within 5 % of the nameplate')),
  verdict('DropVerdict', 'Voltage drop', 'IF(FeederDropShare<=DropLimit,"pass","check")', '{FeederDrop_V} over {FeederLength_ft}, {FeederDropShare%}; at most {DropLimit%}.', cite('nec', 'informational note to 210.19, 3 %: advice, not a rule')),
  verdict('AmpacityVerdict', 'Cable ampacity', 'IF(CableAmpacity_A>=1.25*MotorCurrent_A,"pass","stop")', '{Cable} AWG carries {CableAmpacity_A}; 125 % of {MotorCurrent_A} is needed.', cite('nec', '430.22')),
  verdict('UpliftVerdict', 'Uplift of an empty tank', 'IF(UpliftSafety="no uplift",IF(GroundwaterAssumed=1,"check","pass"),IF(UpliftSafety>=1.3,"pass",IF(UpliftSafety>=1.1,"check","stop")))', 'Holding weight over uplift: {UpliftSafety}, groundwater {WaterAboveBase_ft} above the base, its depth {GroundwaterGiven}; 1.3 wanted, under 1.1 the tank may float.', cite('femaP259', 'factor 1.3 for tanks; 1.1 is the lowest in use')),
  verdict('PitVerdict', 'Pit depth', 'IF(PitDepth_ft>20,"stop",IF(PitDepth_ft>=5,"check","pass"))', 'The pit is {PitDepth_ft} deep: from 5 ft a protective system, over 20 ft an engineer’s design.', cite('osha1926', '1926.652')),
  verdict('CoverVerdict', 'Cover over the lids', 'IF(Cover_ft<=TankMostCover_ft,"pass","stop")', '{Cover_ft} of earth; the maker allows {TankMostCover_ft}.', cite('practice', 'limit of the tank’s maker')),
  verdict('FittingsVerdict', 'IPS and CTS kept apart', 'IF(OR(AND(LineFit="IPS",LineFittings="IPS insert"),AND(LineFit="CTS",LineFittings="CTS compression")),"pass","stop")', '{WaterLinePipe} takes {LineFit} fittings; the line has {LineFittings}.', cite('practice', 'IPS pipe takes insert fittings, CTS tubing compression fittings; never mixed')),
  verdict('DrainVerdict', 'Inlet drains', 'IF(RoofFlow_gpm<=InletCount*DrainCapacity_gpm,"pass","check")', '{RoofFlow_gpm} off the roof; {InletCount} drains carry {DrainCapacity_gpm} each.', cite('epanet', 'Chezy–Manning, pipe just full')),
  verdict('TieVerdict', 'Storm flow through the ties', 'IF(TieHead_ft<=AirSpace_ft,"pass","stop")', '{TieFlow_gpm} must pass a tie and raises the far tank by {TieHead_ft}; {AirSpace_ft} of room under the lid.', cite('orifice', 'head of a submerged orifice')),
  verdict('SlopeVerdict', 'Drain slope', 'IF(DrainSlope_in_per_ft>=0.125,"pass","check")', '{DrainSlope_in_per_ft}; 1/8 in/ft at least for 4 in pipe.', cite('chicago', 'minimum slope, 3 to 6 in')),
  verdict('TrenchVerdict', 'Cover over the cable', 'IF(TrenchDepth_in-1>=CableCover_in,"pass","stop")', 'Trench {TrenchDepth_in}, less 1 in of cable; the cable needs {CableCover_in} over its top.', cite('nec', 'Table 300.5')),
  verdict('RunsVerdict', 'Runs given', 'IF(RunsAssumed=0,"pass","check")', '{RunsAssumed} of the four run lengths were left empty and taken at their default: measure before pricing.', cite('practice', 'runs are measured on site')),
]
export const verdictWords = ['stop', 'check', 'pass'] as const
export type Verdict = (typeof verdictWords)[number]
