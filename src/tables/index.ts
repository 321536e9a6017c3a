// Made by scripts/make-index.mjs from the folder listing; run `npm run index` after adding a file.
import type { Table } from '../table.js'
import { breakers } from './breakers.js'
import { conductors } from './conductors.js'
import { conduits } from './conduits.js'
import { coverDepths } from './coverDepths.js'
import { fittings } from './fittings.js'
import { lineWaves, lineHeat, lineHeatUs } from './lineMaterials.js'
import { materials } from './materials.js'
import { motors } from './motors.js'
import { pipes } from './pipes.js'
import { roofs } from './roofs.js'
import { pitBatters, soils } from './soils.js'
import { vacuumRules } from './vacuumRules.js'
import { water } from './water.js'
import { wheelLoads } from './wheelLoads.js'

export const tables: readonly Table[] = [breakers, conductors, conduits, coverDepths, fittings, lineWaves, lineHeat, lineHeatUs, materials, motors, pipes, roofs, pitBatters, soils, vacuumRules, water, wheelLoads]
