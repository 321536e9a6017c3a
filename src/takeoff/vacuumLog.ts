/** The log of the vacuum test, a row a tank: what is written on site, and what it says. */
/** Cells written on site. */
export const LOG_ENTRIES = ['start_inHg', 'end_inHg', 'watched_min', 'startTemp_F', 'endTemp_F'] as const
/** What the vacuum fell by, warming air allowed for where both temperatures are read. */
export const logLoss =
  'IF(COUNT(start_inHg,end_inHg)<2,"",IF(COUNT(startTemp_F,endTemp_F)=1,"both °F or none",IF(COUNT(startTemp_F,endTemp_F)=2,VACUUMLOSS(start_inHg,end_inHg,startTemp_F,endTemp_F,Barometer_inHg,Barometer_inHg),VACUUMLOSS(start_inHg,end_inHg))))'
/** Drawn so much over what its maker allows, a tank is looked over by the maker: no later test says that it is sound. */
const OVERDRAWN_INHG = 1
export const logSound = `ROUND(MAX(start_inHg,end_inHg),2)<=ROUND(VacuumAllowed_inHg,2)+${OVERDRAWN_INHG}`
/**
 * Nothing before both readings stand. A tank that loses more than it may has failed, however short or low the test was; anything else
 * but a full test of good readings is looked into: a gauge beyond the air of the site, or one that rose, or fell below the limit, by
 * half of the tenth that it is read to (common practice, no source). Drawn a quarter of an inch over what the maker allows, so that the
 * level stands at the end, a test is one; more is looked into, and from an inch over a stop: the maker looks the tank over (common
 * practice, no source). `which` says which tank it was.
 */
export const logVerdict = `IF(OR(start_inHg="",end_inHg=""),"",IF(NOT(ISNUMBER(loss_inHg)),"check",IF(OR(MAX(start_inHg,end_inHg)>Barometer_inHg,end_inHg<0),"check",IF(ROUND(loss_inHg,2)>ROUND(TestLoss*TestVacuum_inHg,2)+0.05,"stop",IF(NOT(${logSound}),"stop",IF(OR(which="",COUNT(watched_min)=0,ROUND(MAX(start_inHg,end_inHg),2)>ROUND(VacuumAllowed_inHg,2)+0.25),"check",IF(OR(start_inHg<TestVacuum_inHg,watched_min<TestHold_min,loss_inHg<-0.05),"check",IF(ROUND(loss_inHg,2)<=ROUND(TestLoss*TestVacuum_inHg,2),"pass","check"))))))))`
