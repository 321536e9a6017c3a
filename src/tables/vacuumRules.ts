import { cite } from '../sources.js'
import { table } from '../table.js'

/** Vacuum tightness tests of whole tanks: level, hold time, share of the level that may be lost. They differ in all three. */
export const vacuumRules = table({
  id: 'VacuumRules',
  title: 'Vacuum tests of precast tanks',
  source: cite('wac'),
  notes: [
    'Cisterns fall under ASTM C913, which names no vacuum test: the contract says which of these is borrowed.',
    'ASTM C1719 (installed tank, before backfill) applies by its scope; its figures were not read and are not given here.',
  ],
  rows: [
    { rule: 'five minutes, no loss', vacuum_inHg: 4, time_min: 5, loss: 0, base: 'precast tanks, after one re-adjustment to 4 inHg', source: cite('npca') },
    { rule: 'Washington WAC 246-272B', vacuum_inHg: 4, time_min: 2, loss: 0.1, base: 'sealed empty tank, risers and pipes plugged' },
    { rule: 'ASTM C1227, recent', vacuum_inHg: 4, time_min: 2, loss: 0.1, base: 'septic tanks', source: cite('astmC1227', 'recent editions') },
    { rule: 'ASTM C1227, 1990s', vacuum_inHg: 2, time_min: 2, loss: 0.1, base: 'septic tanks', source: cite('astmC1227', '1990s editions as tabulated by EPA 2002') },
    { rule: 'Minnesota 7080.2010', vacuum_inHg: 2, time_min: 5, loss: 0, base: 'tank assessment', source: cite('minnesota') },
  ],
})
