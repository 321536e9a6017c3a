import { cite } from '../../sources.js'
import { citeRows } from '../../table.js'
import { vacuumRules } from '../../tables/vacuumRules.js'
import { wheelLoads } from '../../tables/wheelLoads.js'
import { geometry, office, ofRow, practice, result, sum } from './rule.js'
import { CRANE_RADII_FT } from '../officeTables.js'

const crane = (column: string) => ofRow('Cranes', 'Model', 'CraneModel', column)
const capacity = CRANE_RADII_FT.reduceRight<string>((rest, radius) => `IF(PickRadius_ft<=${radius},${crane(`At${radius}_lb`)},${rest})`, '0')
/** The price of a part for the openings of the second model. */
const priced = (code: string): string => `INDEX(Prices[Price_usd],MATCH(${code},Prices[Code],0))`
const ofSecondOpening = (code: string): string => `IF(OpeningsSecond=0,0,IFERROR(${priced(`"${code}-"&SecondOpening_in`)},${priced(`"${code}"`)}))`
const listed = (fields: readonly string[], name: string) => fields.reduceRight<string>((rest, kind, at) => `IF(${name}="${kind}",${at},${rest})`, '0')

export const safetyResults = (traffic: readonly string[]) =>
  [
    result(
      'WeightFigured_lb',
      'Weight figured from the walls',
      'TANKWEIGHT(TankLength_ft,TankWidth_ft,TankHeight_ft,TankWall_in,TankFloor_in,TankLid_in,Concrete_lb_per_ft3)',
      cite('femaP259', 'concrete 150 lb/ft³'),
    ),
    result('WeightRatio', 'Typed weight over the figured one', 'TankWeight_lb/WeightFigured_lb', sum),
    result('SecondRatio', 'Typed weight over the figured one, second model', 'SecondWeight_lb/IF(SecondTanks=0,WeightFigured_lb,SecondFigured_lb)', sum),
    result('RiserWall_in', 'Wall of a riser', '3', practice('concrete; a light one is thinner')),
    result('Risers_ft2', 'Risers of a tank, outside area', 'TankOpenings*PI()/4*((TankOpening_in+2*RiserWall_in)/12)^2', cite('derivation', 'no earth stands there, and they displace water; their weight is not counted')),
    result('SecondRisers_ft2', 'Risers of a tank of the second model, outside area', 'SecondOpenings*PI()/4*((SecondOpening_in+2*RiserWall_in)/12)^2', cite('derivation', 'as above')),
    result('LidHoles_lb', 'Concrete that the lid’s openings leave out', 'TankOpenings*PI()/4*(TankOpening_in/12)^2*TankLid_in/12*Concrete_lb_per_ft3', geometry),
    result('SecondLidHoles_lb', 'The same of the second model', 'SecondOpenings*PI()/4*(SecondOpening_in/12)^2*TankLid_in/12*Concrete_lb_per_ft3', geometry),
    result('FirmWeight_lb', 'Weight that holds a tank down', 'IF(WeightRatio>1.15,WeightFigured_lb-LidHoles_lb,TankWeight_lb)', practice('typed over 1.15 of walls, floor and lid: those count until the maker confirms it')),
    result('SecondFirm_lb', 'Weight that holds one of the second model down', 'IF(SecondRatio>1.15,IF(SecondTanks=0,WeightFigured_lb,SecondFigured_lb)-SecondLidHoles_lb,SecondWeight_lb)', practice('as above')),
    result('EarthInWater_lb_per_ft3', 'Unit weight of the cover under water', 'EarthWeight_lb_per_ft3-62.4', cite('dd41', 'submerged')),
    result('WaterAboveBase_ft', 'Groundwater above the tank base', 'MAX(0,Cover_ft+TankHeight_ft-GroundwaterDepth_ft)', geometry),
    result('GroundwaterGiven', 'Groundwater depth', 'IF(GroundwaterAssumed=1,"not given: find it out","as given")', practice('an unknown depth is looked into, not passed')),
    result(
      'UpliftSafety',
      'Holding weight over uplift, tank empty',
      'IF(GroundwaterAssumed=1,"not known",IF(WaterAboveBase_ft>0,IF(SecondTanks=0,UPLIFTSAFETY(TankLength_ft,TankWidth_ft,TankHeight_ft,TankWeight_lb,WaterAboveBase_ft,Cover_ft,EarthInWater_lb_per_ft3,Risers_ft2),MIN(UPLIFTSAFETY(TankLength_ft,TankWidth_ft,TankHeight_ft,TankWeight_lb,WaterAboveBase_ft,Cover_ft,EarthInWater_lb_per_ft3,Risers_ft2),UPLIFTSAFETY(SecondLength_ft,SecondWidth_ft,TankHeight_ft,SecondWeight_lb,WaterAboveBase_ft,Cover_ft,EarthInWater_lb_per_ft3,SecondRisers_ft2))),"no uplift"))',
      cite('femaP259'),
    ),
    result(
      'UpliftFigured',
      'Holding weight over uplift, with the weight of walls, floor and lid',
      'IF(GroundwaterAssumed=1,"not known",IF(WaterAboveBase_ft>0,MIN(UPLIFTSAFETY(TankLength_ft,TankWidth_ft,TankHeight_ft,WeightFigured_lb-LidHoles_lb,WaterAboveBase_ft,Cover_ft,EarthInWater_lb_per_ft3,Risers_ft2),UPLIFTSAFETY(SecondLength_ft,SecondWidth_ft,TankHeight_ft,SecondFigured_lb-SecondLidHoles_lb,WaterAboveBase_ft,Cover_ft,EarthInWater_lb_per_ft3,SecondRisers_ft2)),"no uplift"))',
      cite('femaP259', 'should the typed weight be too high'),
    ),
    result(
      'UpliftAtGrade',
      'Holding weight over uplift, water up to the ground',
      'MIN(UPLIFTSAFETY(TankLength_ft,TankWidth_ft,TankHeight_ft,FirmWeight_lb,TankHeight_ft+Cover_ft,Cover_ft,EarthInWater_lb_per_ft3,Risers_ft2),UPLIFTSAFETY(SecondLength_ft,SecondWidth_ft,TankHeight_ft,SecondFirm_lb,TankHeight_ft+Cover_ft,Cover_ft,EarthInWater_lb_per_ft3,SecondRisers_ft2))',
      cite('femaP259', 'fill round the tanks that a storm has filled'),
    ),
    result('FloatDepth_ft', 'Water around an empty, uncovered tank that lifts it', 'MIN(FirmWeight_lb/TankPlan_ft2,SecondFirm_lb/SecondPlan_ft2)/62.4', cite('femaP259', 'buoyancy = 62.4 x volume displaced')),
    result(
      'BallastFor_ft',
      'Groundwater that the ballast is for, above the base',
      'IF(GroundwaterAssumed=1,TankHeight_ft,MIN(TankHeight_ft,WaterAboveBase_ft))',
      practice('not known: to the lid'),
    ),
    result(
      'Ballast_in',
      'Water to leave in each tank',
      '12*MAX(0,(1.1*62.4*TankPlan_ft2*BallastFor_ft-FirmWeight_lb)/(62.4*TankInside_ft2),(1.1*62.4*SecondPlan_ft2*BallastFor_ft-SecondFirm_lb)/(62.4*SecondInside_ft2))',
      practice('factor 1.1 on the buoyancy, for the days that the pit is open (FEMA P-259 takes 1.3 for good); tank uncovered, tied tanks at one level'),
    ),
    result('BallastMost_in', 'Water that a tank holds', '12*TankWaterDepth_ft', geometry),
    result('BallastHeld_in', 'Ballast that goes into a tank', 'MIN(Ballast_in,BallastMost_in)', geometry),
    result('Ballast_gal', 'Ballast in all tanks', 'RowInside_ft2*BallastHeld_in/12*1728/231', geometry),
    result('EarthWeight_lb_per_ft3', 'Unit weight of the cover', '120', cite('memory', 'moist earth; Illinois DOT Culvert Manual 3.4 takes 120 lb/ft³')),
    result('Bearing_psf', 'Load under a full tank', 'MAX((TankWeight_lb+62.4*TankInside_ft2*TankWaterDepth_ft)/TankPlan_ft2,(SecondWeight_lb+62.4*SecondInside_ft2*TankWaterDepth_ft)/SecondPlan_ft2)+EarthWeight_lb_per_ft3*Cover_ft+AxleLoad_psf', geometry),
    result('AxleLoad_psf', 'An axle over a tank, on its bed', '2*WheelLoad_lb/MIN(TankPlan_ft2,SecondPlan_ft2)', cite('moser', 'H-20: two wheels of 16,000 lb on an axle')),
    result('WallDepth_ft', 'Foot of the walls below the ground', 'Cover_ft+TankHeight_ft', geometry),
    result('WallDry_psf', 'Earth on the walls at their foot, dry', 'WallEarthShare*EarthWeight_lb_per_ft3*WallDepth_ft', cite('memory', 'earth at rest; loads as in ASTM C890')),
    result('WallEarthShare', 'Side pressure of earth over its weight', '0.5', cite('memory', 'earth at rest')),
    result('WallPressure_psf', 'Earth and groundwater on the walls at their foot', 'WallEarthShare*(EarthWeight_lb_per_ft3*(WallDepth_ft-WaterAboveBase_ft)+EarthInWater_lb_per_ft3*WaterAboveBase_ft)+62.4*WaterAboveBase_ft', cite('memory', 'earth at rest and standing water; loads as in ASTM C890')),
    result('WheelSurcharge_ft', 'Wheels beside a wall, as so much more earth', 'IF(TrafficRank>1,WheelEarth_ft,0)', cite('memory', 'AASHTO: wheels near a wall')),
    result('WheelEarth_ft', 'Earth that presses as such wheels do', '2', cite('memory', 'AASHTO: 2 ft of earth for wheels near a wall')),
    result('WallWheels_psf', 'Wheels beside them', 'WallEarthShare*EarthWeight_lb_per_ft3*WheelSurcharge_ft', cite('memory', 'AASHTO, as above; loads as in ASTM C890')),
    result('WaterOutsideAllowed_ft', 'Groundwater over the base that the makers designed for', 'MIN(TankWaterOutside_ft,SecondWaterOutside_ft)', office),
    result('BearingFails_psf', 'Load at which the ground may give way', '1.5*BearingAllowed_psf', cite('memory', 'NAVFAC DM-7.02: what is allowed is a third of what breaks the ground, and half of it is the least ever kept')),
    result('DugOut_psf', 'Load of the earth dug out', 'EarthWeight_lb_per_ft3*PitDepth_ft', geometry),
    result('TrafficRank', 'Traffic, lightest 0', listed(traffic, 'Traffic'), office),
    result('TrafficAllowed', 'Traffic allowed, lightest 0', `MIN(${listed(traffic, 'TankTraffic')},${listed(traffic, 'SecondTraffic')})`, office),
    result('TrafficOver', 'Traffic that the makers allow', `IF(${listed(traffic, 'SecondTraffic')}<${listed(traffic, 'TankTraffic')},SecondTraffic,TankTraffic)`, office),
    result('WheelLoad_lb', 'Load of a wheel', 'INDEX(WheelLoads[wheel_lb],TrafficRank+1)', citeRows(wheelLoads, 'moser', 'H-20: two wheels of 16,000 lb; lighter ones common practice')),
    result(
      'Impact',
      'Impact factor',
      'IF(TrafficRank<3,1,IF(Cover_ft<=1,1.5,IF(Cover_ft<=2,1.35,IF(Cover_ft<=3,1.15,1))))',
      cite('moser', '1.50, 1.35, 1.15, 1.00 to 1, 2, 3 ft of cover and over'),
    ),
    result('WheelSpread_ft', 'Side of the square it spreads to', 'MAX(1.5,1.75*Cover_ft)', cite('memory', '1.75 x cover; 18 in at the least')),
    result('WheelApart_ft', 'Two wheels apart', '6', cite('moser', '72 in')),
    result(
      'WheelPressure_psf',
      'Wheel through the cover, with impact',
      'IF(WheelSpread_ft<WheelApart_ft,WheelLoad_lb/WheelSpread_ft^2,2*WheelLoad_lb/(WheelSpread_ft*(WheelSpread_ft+WheelApart_ft)))*Impact',
      cite('moser', 'squares of the two wheels overlap where they meet'),
    ),
    result('LegPull_lb', 'Pull in a sling leg, two counted, 60°', 'SLINGTENSION(HeaviestTank_lb,2,60)', cite('slings')),
    result('Rigging_lb', 'Rigging and hook block', '800', practice('spreader, chains, block')),
    result('PickLoad_lb', 'Load on the hook', 'HeaviestTank_lb+Rigging_lb', sum),
    result('CraneSetback_ft', 'Outriggers from the pit’s edge', '3', practice('outside the line from the pit foot at the soil’s slope; farther where the competent person says')),
    result('OutriggerBase_ft', 'Outriggers, across', '18', practice('truck crane')),
    result('SetUps', 'Crane set-ups', '1', practice('beside the middle of the row')),
    result('PickOffset_ft', 'Farthest tank along the row', 'MAX(0,(RowLength_ft/SetUps-MIN(TankWidth_ft,SecondWidth_ft))/2)', geometry),
    result('PickRadius_ft', 'Radius to the farthest tank', 'SQRT((PitTopWidth_ft/2+CraneSetback_ft+OutriggerBase_ft/2)^2+PickOffset_ft^2)', geometry),
    result('CriticalLift', 'Share of the chart from which a lift is called critical', '0.75', cite('memory', '29 CFR 1926.751: over 75 % of the rated capacity; USACE EM 385-1-1')),
    result('CraneCapacity_lb', 'The crane lifts at that radius', `IF(CraneModel="",0,${capacity})`, office),
    result('CraneHour_usd', 'Crane, an hour', `IF(CraneModel="",INDEX(Prices[Price_usd],MATCH("CRANE",Prices[Code],0)),${crane('Hour_usd')})`, office),
    result('CraneTravel_usd', 'Crane, travel', `IF(CraneModel="",0,${crane('Travel_usd')})`, office),
    result('CraneWords', 'Crane, in words', 'IF(CraneModel="","a crane of the yard’s choice",CraneModel)', office),
    result('OpeningCount', 'Openings to plate', 'FirstTanks*TankOpenings+SecondTanks*SecondOpenings', practice('every opening of every tank')),
    result('OpeningsSecond', 'Openings of another size, of the second model', 'IF(SecondOpening_in=TankOpening_in,0,SecondTanks*SecondOpenings)', practice('lids, risers and plates of a size of their own')),
    ...(
      [
        ['SecondRiser_usd', 'Price of a riser of that size', 'RISER'],
        ['SecondRiserLid_usd', 'Price of a riser lid of that size', 'RISER-LID'],
        ['SecondInsulation_usd', 'Price of insulation under such a lid', 'LID-INSUL'],
        ['SecondPlate_usd', 'Price of a test plate of that size, use of', 'PLATE'],
      ] as const
    ).map(([name, label, code]) => result(name, label, ofSecondOpening(code), cite('office', 'sheet Prices, under the code with the size; under that of the first size where it has none'))),
    result('OpeningsFirst', 'Openings of the first size', 'OpeningCount-OpeningsSecond', sum),
    result('TiePlugs', 'Ends of 4 in ties to plug', '2*TieCount', practice('both ends of each tie')),
    result('PlugCount', 'Holes to plug, ties and ports', 'TiePlugs+PortsUsed', practice('both ends of each tie, and each port cut open')),
    result('RoomLeast_ft', 'Room beside the tanks, at the least', '1.5', practice('a person between tank and wall')),
    result('GapLeast_in', 'Gap between tanks, at the least', '6', practice('boots, clamps and a hand with a driver')),
    result('TestLeast_inHg', 'Weakest vacuum of a published test', 'MIN(VacuumRules[vacuum_inHg])', citeRows(vacuumRules, 'wac', 'the least of the rules on Published tables')),
    result('TestLeast_min', 'Shortest hold of a published test', 'MIN(VacuumRules[time_min])', citeRows(vacuumRules, 'wac', 'the least of the rules on Published tables')),
    result('TestLossMost', 'Largest loss that a published test lets pass', 'MAX(VacuumRules[loss])', citeRows(vacuumRules, 'wac', 'the most of the rules on Published tables')),
    result('PlateForce_lbf', 'Air force on a plate', 'COVERFORCE(PI()/4*MAX(TankOpening_in,SecondOpening_in)^2,TestVacuum_inHg)', cite('definitions')),
    result('LidForce_lbf', 'Air force on a lid', 'COVERFORCE(MAX(TankPlan_ft2,SecondPlan_ft2)*144,TestVacuum_inHg)', cite('definitions')),
    result('PlugForce_lbf', 'Air force on the plug of a port', 'COVERFORCE(PI()/4*PortBore_in^2,TestVacuum_inHg)', cite('definitions')),
  ] as const
