/** What can hurt someone on this job, worst first, each with the rule it points to. Local codes and licensed practice decide. */
export interface CautionRule {
  name: string
  /** Raised when this is true. */
  when: string
  text: string
  points: string
}
const caution = (name: string, when: string, text: string, points: string): CautionRule => ({ name, when, text, points })

export const cautionRules: readonly CautionRule[] = [
  caution('deep pit', 'PitDepth_ft>20', 'The pit is deeper than 20 ft: a registered engineer designs its protection before anyone digs.', '29 CFR 1926 Subpart P, 1926.652 and Appendix F'),
  caution('pit walls', 'PitDepth_ft>=5', 'Slope, bench or shore the pit walls; a competent person classes the soil and inspects each day and after rain. Nobody enters an unprotected pit.', '29 CFR 1926 Subpart P'),
  caution('tank entry', 'TRUE', 'A tank is a confined space, also while it is empty and new: no entry without permit, air test, ventilation, attendant and rescue.', '29 CFR 1910.146 and 1926 Subpart AA'),
  caution('lifting', 'TRUE', 'Keep everyone from under and beside a hanging tank; use the maker’s lifting points, slings not flatter than 30° from horizontal, firm ground for the crane.', '29 CFR 1926 Subpart CC, 1926.251'),
  caution('power lines', 'TRUE', 'Keep crane and excavator 10 ft from power lines up to 50 kV, 20 ft until the voltage is known.', '29 CFR 1926.1408, Table A'),
  caution('buried lines', 'TRUE', 'Have buried lines marked before digging; dig by hand near the marks.', 'State one-call law (811), 29 CFR 1926.651(b)'),
  caution('flotation', 'WaterAboveBase_ft>0', 'Groundwater stands above the tank base: an empty tank can float. Keep the pit pumped until backfilled and the tanks ballasted with water.', 'FEMA P-259; the tank maker'),
  caution('electricity', 'TRUE', 'Electricity in a wet place: a licensed electrician connects the pump; ground-fault protection and a disconnect as the adopted code asks. Lock out before reaching into a tank.', 'NEC 110.3(B), 430.102, 210.8(F); 29 CFR 1910.147'),
  caution('vacuum', 'TRUE', 'Under vacuum the air presses {LidForce_lbf} on a lid and {PlateForce_lbf} on a plate: keep off lids and plates, loosen nothing until the gauge reads zero, do not exceed the test level.', 'The tank maker; the test standard named in the contract'),
  caution('spoil', 'PitDepth_ft>=4', 'Keep spoil, stone and machines 2 ft back from the edge; a ladder within 25 ft of everyone in a pit 4 ft or deeper.', '29 CFR 1926.651(c)(2) and (j)(2)'),
  caution('open flame', 'TRUE', 'Where polyethylene is warmed to slip on an insert, do it outside the tank only: no flame and no fuel gas in or over a tank.', '29 CFR 1926.352 and 1910.146'),
  caution('drinking water', 'TRUE', 'Roof water is not drinking water without treatment. Mark every outlet and line that carries it.', 'IPC chapter 13; state health rules'),
  caution('backflow', 'TRUE', 'Never join the cistern line to a public supply without an air gap or an approved backflow preventer.', 'IPC 608 and 1301; UPC 603'),
]
export const closingCaution = 'Local codes, the inspector and licensed practice decide; these sheets are an estimator’s aid and no design.'
