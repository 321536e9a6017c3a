/** Versions whose rows may stand in an office, newest first: what each of them had otherwise. */
import { items040, type ChangedItem } from './items040.js'
import { items061 } from './items061.js'
import { items070 } from './items070.js'
import { items080 } from './items080.js'
import { items090 } from './items090.js'
import { items100 } from './items100.js'
import { items110 } from './items110.js'
import { items120 } from './items120.js'
import { items130 } from './items130.js'
import { items140 } from './items140.js'
import { items150 } from './items150.js'
import { items180 } from './items180.js'
import { items190 } from './items190.js'

export const versions: readonly Readonly<Record<string, ChangedItem>>[] = [
  items190,
  items180,
  items150,
  items140,
  items130,
  items120,
  items110,
  items100,
  items090,
  items080,
  items070,
  items061,
  items040,
]
