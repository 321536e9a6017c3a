/** Descriptions that earlier versions wrote as plain words: on a takeoff made then they are ours and nobody's. */
import { items010 } from './items010.js'
import { items040 } from './items040.js'
import { items061 } from './items061.js'
import { items070 } from './items070.js'

export const olderDescriptions: ReadonlySet<string> = new Set([
  ...items010.map(({ Description }) => String(Description)),
  ...[items040, items061, items070].flatMap((list) => Object.values(list).flatMap(({ was }) => (was.Description ? [String(was.Description)] : []))),
])
