/** Versions whose rows may stand in an office, newest first: the last one that had them, and what they had otherwise. */
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
import { items200 } from './items200.js'
import { items210 } from './items210.js'

export const versions: readonly { last: string; items: Readonly<Record<string, ChangedItem>> }[] = [
  { last: '0.21.0', items: items210 },
  { last: '0.20.0', items: items200 },
  { last: '0.19.0', items: items190 },
  { last: '0.18.0', items: items180 },
  { last: '0.15.0', items: items150 },
  { last: '0.14.0', items: items140 },
  { last: '0.13.0', items: items130 },
  { last: '0.12.0', items: items120 },
  { last: '0.11.0', items: items110 },
  { last: '0.10.0', items: items100 },
  { last: '0.9.0', items: items090 },
  { last: '0.8.0', items: items080 },
  { last: '0.7.0', items: items070 },
  { last: '0.6.1', items: items061 },
  { last: '0.4.0', items: items040 },
]
