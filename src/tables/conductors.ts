import { cite } from '../sources.js'
import { table } from '../table.js'

const read = cite('nec', 'Chapter 9 Table 8 and Table 310.16 (310.15(B)(16) in 2011 to 2017)')
const memory = cite('nec', 'Chapter 9 Table 8 and Table 310.16 (310.15(B)(16) in 2011 to 2017)', 'from memory')

/** Stranded conductors, 75 °C direct-current resistance, and ampacity at 30 °C ambient by terminal column. */
export const conductors = table({
  id: 'Conductors',
  title: 'Conductors 14 AWG to 4/0: area, resistance, ampacity',
  source: memory,
  notes: [
    'Ampacity columns are those of editions from 2011 on; older editions allow more for 14 and 12 AWG.',
    'Type UF cable takes the 60 °C column whatever its insulation. There is no aluminum ampacity for 14 AWG.',
  ],
  rows: [
    { size: '14', area_cmil: 4110, copper_ohm_per_kft: 3.14, aluminum_ohm_per_kft: 5.17, copper60_A: 15, copper75_A: 20, aluminum60_A: null, aluminum75_A: null, source: read },
    { size: '12', area_cmil: 6530, copper_ohm_per_kft: 1.98, aluminum_ohm_per_kft: 3.25, copper60_A: 20, copper75_A: 25, aluminum60_A: 15, aluminum75_A: 20, source: read },
    { size: '10', area_cmil: 10380, copper_ohm_per_kft: 1.24, aluminum_ohm_per_kft: 2.04, copper60_A: 30, copper75_A: 35, aluminum60_A: 25, aluminum75_A: 30, source: read },
    { size: '8', area_cmil: 16510, copper_ohm_per_kft: 0.778, aluminum_ohm_per_kft: 1.28, copper60_A: 40, copper75_A: 50, aluminum60_A: 35, aluminum75_A: 40, source: read },
    { size: '6', area_cmil: 26240, copper_ohm_per_kft: 0.491, aluminum_ohm_per_kft: 0.808, copper60_A: 55, copper75_A: 65, aluminum60_A: 40, aluminum75_A: 50, source: read },
    { size: '4', area_cmil: 41740, copper_ohm_per_kft: 0.308, aluminum_ohm_per_kft: 0.508, copper60_A: 70, copper75_A: 85, aluminum60_A: 55, aluminum75_A: 65, source: read },
    { size: '3', area_cmil: 52620, copper_ohm_per_kft: 0.245, aluminum_ohm_per_kft: 0.403, copper60_A: 85, copper75_A: 100, aluminum60_A: 65, aluminum75_A: 75 },
    { size: '2', area_cmil: 66360, copper_ohm_per_kft: 0.194, aluminum_ohm_per_kft: 0.319, copper60_A: 95, copper75_A: 115, aluminum60_A: 75, aluminum75_A: 90, source: read },
    { size: '1', area_cmil: 83690, copper_ohm_per_kft: 0.154, aluminum_ohm_per_kft: 0.253, copper60_A: 110, copper75_A: 130, aluminum60_A: 85, aluminum75_A: 100 },
    { size: '1/0', area_cmil: 105600, copper_ohm_per_kft: 0.122, aluminum_ohm_per_kft: 0.201, copper60_A: 125, copper75_A: 150, aluminum60_A: 100, aluminum75_A: 120, source: cite('nec', 'resistance and ampacity read; circular mils from memory', 'from memory') },
    { size: '2/0', area_cmil: 133100, copper_ohm_per_kft: 0.0967, aluminum_ohm_per_kft: 0.159, copper60_A: 145, copper75_A: 175, aluminum60_A: 115, aluminum75_A: 135 },
    { size: '3/0', area_cmil: 167800, copper_ohm_per_kft: 0.0766, aluminum_ohm_per_kft: 0.126, copper60_A: 165, copper75_A: 200, aluminum60_A: 130, aluminum75_A: 155 },
    { size: '4/0', area_cmil: 211600, copper_ohm_per_kft: 0.0608, aluminum_ohm_per_kft: 0.1, copper60_A: 195, copper75_A: 230, aluminum60_A: 150, aluminum75_A: 180, source: cite('nec', 'resistance read; ampacity from memory', 'from memory') },
  ],
})
