import { cite } from '../sources.js'
import { table } from '../table.js'

/** Least cover to the top of the cable or raceway, by wiring method and by what lies above it. */
export const coverDepths = table({
  id: 'CoverDepths',
  title: 'Least cover over buried wiring, in',
  source: cite('nec', 'Table 300.5 (300.5(A) from 2023): driveway and concrete-trench columns from memory, the others read', 'from memory'),
  notes: [
    'building: 0 only in a raceway or for a cable listed for it, never a bare direct-burial cable. slab: 4 in of concrete without vehicles, 6 in wider each side. trenchConcrete: 2 in over the wiring. driveway: of a dwelling; other traffic is road.',
    'The driveway and concrete-trench columns are from memory; the others were read.',
    'The 12 in depth is only for residential branch circuits of 120 V or less, GFCI protected, 20 A or less: a 230 V pump never gets it.',
    'Where conductors leave the ground they are guarded from the required cover (no more than 18 in down) to 8 ft above grade.',
  ],
  rows: [
    { method: 'direct burial', yard_in: 24, trenchConcrete_in: 18, building_in: 0, slab_in: 18, road_in: 24, driveway_in: 18 },
    { method: 'rigid metal conduit', yard_in: 6, trenchConcrete_in: 6, building_in: 0, slab_in: 4, road_in: 24, driveway_in: 18 },
    { method: 'PVC conduit', yard_in: 18, trenchConcrete_in: 12, building_in: 0, slab_in: 4, road_in: 24, driveway_in: 18 },
    { method: '120 V 20 A GFCI circuit', yard_in: 12, trenchConcrete_in: 6, building_in: 0, slab_in: 6, road_in: 24, driveway_in: 12 },
    { method: '30 V irrigation', yard_in: 6, trenchConcrete_in: 6, building_in: 0, slab_in: 6, road_in: 24, driveway_in: 18 },
  ],
})
