/** Descriptions and reasons that earlier versions wrote as plain words: on a takeoff made then they are ours and nobody's. */
import { items010 } from './items010.js'
import { versions } from './versions.js'

const cellsOfOlder = [...items010, ...versions.flatMap(({ items }) => Object.values(items).map(({ was }) => was))]
export const olderWords: ReadonlySet<string> = new Set(cellsOfOlder.flatMap(({ Description, Why }) => [Description, Why].flatMap((words) => (words ? [String(words)] : []))))
