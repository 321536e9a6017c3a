import { cite } from '../../sources.js'
import { geometry, practice, result, sum } from './rule.js'

const record = cite('yield', 'daily balance over the whole record, yield after spillage, empty at the start')
const NO_RECORD = '"no daily record"'
const ofRecord = (formula: string): string => `IF(RecordYears=0,${NO_RECORD},${formula})`

export const waterResults = [
  result('CatchmentArea_ft2', 'Roofs, plan area', 'SUM(CatchArea_ft2)', sum),
  result('Runoff', 'Runoff coefficient, by area', 'SUMPRODUCT(CatchArea_ft2,CatchRunoff)/SUM(CatchArea_ft2)', cite('office')),
  result('InchYield_gal', 'Caught from an inch of rain', 'CATCHMENTYIELD(CatchmentArea_ft2,1,Runoff,0,FilterShare)', cite('definitions')),
  result('DailyUse_gal_per_day', 'Use a day, the year round', 'People*UsePerPerson_gal_per_day+OutdoorUse_gal_per_day', sum),
  result('TankVolume_gal', 'Water in one tank', 'TANKVOLUME(TankLength_ft-2*TankWall_in/12,TankWidth_ft-2*TankWall_in/12,TankWaterDepth_ft)', geometry),
  result('Storage_gal', 'Water in all tanks', 'TankVolume_gal*FirstTanks+SecondVolume_gal*SecondTanks', geometry),
  result('Intake_in', 'Intake of the pump over the floor', '4', practice('the flow sleeve keeps it off what settles')),
  result('SleeveBore_in', 'Bore of the flow sleeve', '4', practice('takes a 4 in motor')),
  result('Submergence_in', 'Water over the intake, so that it draws no air', 'SleeveBore_in*(1+2.3*FLOWVELOCITY(MAX(HouseFlow_gpm,DutyFlow_gpm),SleeveBore_in)/SQRT(32.174*SleeveBore_in/12))', cite('memory', 'Hydraulic Institute 9.8: S = D (1 + 2.3 V / √gD), in gpm and inches D + 0.574 Q / D^1.5')),
  result('TankWorth', 'Share of the demand that a further tank must bring', '0.01', practice('where no count reaches the wanted share')),
  result('UsableStorage_gal', 'Water above the dead depth', 'RowInside_ft2*MAX(0,TankWaterDepth_ft-DeadDepth_in/12)*1728/231', geometry),
  result('Shower_in', 'Rain of a wet day, or of a wet spell', 'IF(FirstFlushEach="wet spell",0.5,0.35)', cite('memory', 'Driscoll and others, EPA 1989: storms of the US bring half an inch on the mean; a day of them common practice')),
  result('YearInflow_gal', 'Caught in a year of mean months', 'SUM(MonthInflow_gal)', sum),
  result('YearDemand_gal', 'Wanted in a year', 'SUM(MonthDemand_gal)', sum),
  result('RoofShare', 'Share of the demand that the roof catches, whatever the tanks hold', 'IF(YearDemand_gal=0,1,MIN(1,YearInflow_gal/YearDemand_gal))', sum),
  result('YearOverflow_gal', 'Spilled in a year of mean months', 'SUM(MonthOverflow_gal)', sum),
  result('LowestStored_gal', 'Least stored at a month’s end, mean months', 'MIN(MonthStored_gal)', sum),
  result('RecordYears', 'Whole years of daily rain', 'COUNT(RecordYear)', cite('office')),
  result('RainMethod', 'Rain that the storage is judged on', 'IF(RecordYears>0,"daily record","monthly means")', cite('dailyStep', 'coarse steps mislead for small stores')),
  result(
    'ReliabilityLow',
    'Share of the demand met, mean months, low bound',
    'IF(YearDemand_gal=0,1,SUM(MonthSupplied_gal)/YearDemand_gal)',
    cite('yield', 'monthly yield after spillage, second of two like years'),
  ),
  result(
    'ReliabilityHigh',
    'Share of the demand met, mean months, high bound',
    'IF(YearDemand_gal=0,1,SUM(HighSupplied_gal)/YearDemand_gal)',
    cite('yield', 'monthly yield before spillage, second of two like years'),
  ),
  result(
    'Reliability',
    'Share of the demand met',
    'IF(RecordYears=0,ReliabilityLow,IF(SUM(RecordWanted_gal)=0,1,SUM(RecordSupplied_gal)/SUM(RecordWanted_gal)))',
    cite('reliability', 'volumetric; on the daily record where there is one, else the low bound'),
  ),
  result(
    'SizingShare',
    'Share of the demand met that tanks are counted by',
    'IF(RecordYears=0,IF(YearDemand_gal=0,1,SUM(HalfSupplied_gal)/YearDemand_gal),Reliability)',
    cite('yield', 'on means alone yield after spillage in steps of half a month: on whole months it wants a tank for the rain of a month'),
  ),
  result('DaysMet', 'Share of days met in full', ofRecord('SUM(RecordMet)/SUM(RecordDays)'), record),
  result('WorstYearShare', 'Share met in the worst year', ofRecord('MIN(RecordShare)'), record),
  result('WorstYear', 'Worst year', ofRecord('INDEX(RecordYear,MATCH(MIN(RecordShare),RecordShare,0))'), record),
  result('LongestShort_days', 'Longest run of days not fully met', ofRecord('RecordLongestShort_days'), record),
  result(
    'RecordAgrees',
    'Daily balance made for these figures',
    'IF(RecordYears=0,1,IF(AND(ABS(RecordForStorage_gal-UsableStorage_gal)+ABS(RecordForInch_gal-InchYield_gal)+ABS(RecordForYear_gal-YearDemand_gal)<1,ABS(RecordForFlush_in-FirstFlush_in)<0.0005,RecordForEach=FirstFlushEach,RecordForStation=RainStation),1,0))',
    cite('derivation', 'the balance of the record is a value: where a figure behind it has changed, by a gallon or half a thousandth of an inch, the job is made again'),
  ),
] as const
