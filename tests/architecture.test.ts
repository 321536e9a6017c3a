/** Imports point one way; below hosts/ there is no Office, DOM, clock, random number or global state; nothing names what it must not. */
import { execFileSync } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { dirname, join, relative } from 'node:path'
import { fileURLToPath } from 'node:url'
import { describe, expect, it } from 'vitest'
import { listedMutants } from '../scripts/mutantsListed.js'

const root = join(dirname(fileURLToPath(import.meta.url)), '..')
const tracked = execFileSync('git', ['ls-files', '-co', '--exclude-standard'], { cwd: root, encoding: 'utf8' }).trim().split('\n')
const sources = tracked.filter((file) => /^(?:src|functions|taskpane)\/.*\.ts$/.test(file))
const read = (file: string) => readFileSync(join(root, file), 'utf8')

/** Rooms from the bottom up: a file may import its own room and those to the left. */
const rooms = ['base', 'formula', 'calc', 'takeoff', 'plan', 'hosts', 'top'] as const
function roomOf(file: string): (typeof rooms)[number] {
  if (/^src\/(?:units|sources|errors|rounding|shortHash|days)\.ts$/.test(file)) return 'base'
  if (file.startsWith('src/formula/')) return 'formula'
  if (/^src\/(?:calc|table|keys|index)\.ts$/.test(file) || file.startsWith('src/calc/') || file.startsWith('src/tables/')) return 'calc'
  if (file.startsWith('src/takeoff/')) return 'takeoff'
  if (file.startsWith('src/plan/')) return 'plan'
  if (file.startsWith('src/hosts/')) return 'hosts'
  return 'top'
}
const importsOf = (file: string): string[] =>
  [...read(file).matchAll(/^(?:import|export)[^'"]*['"](\.[^'"]+)['"]/gm)].map((match) => relative(root, join(root, dirname(file), match[1]!)).replace(/\.js$/, '.ts'))

/** No check is switched off by this: it is the pattern of what would, which may stand in no file but this one. */
const SWITCHES_OFF = /\|\| true\b|\.only\(|it\.todo|@ts-ignore|@ts-expect-error|eslint-disable/ // forbidden everywhere else; spelled here to be found

describe('rooms', () => {
  it('are imported one way only', () => {
    expect(sources.length).toBeGreaterThan(80)
    const wrong = sources.flatMap((file) =>
      importsOf(file)
        .filter((target) => target.endsWith('.ts') && rooms.indexOf(roomOf(target)) > rooms.indexOf(roomOf(file)))
        .map((target) => `${file} imports ${target}`),
    )
    expect(wrong).toEqual([])
  })
  it('functions/ holds no arithmetic of its own and imports no takeoff, plan or host', () => {
    for (const file of sources.filter((name) => name.startsWith('functions/')))
      for (const target of importsOf(file)) expect(['base', 'formula', 'calc', 'top'], `${file} imports ${target}`).toContain(roomOf(target))
  })
  it('below hosts/ a module keeps nothing but what is always the same, each such place with its reason', () => {
    const kept: Readonly<Record<string, string>> = {
      'src/formula/formula.ts read': 'a formula read is always the same',
      'src/plan/heights.ts known': 'heights of a plan that does not change',
      'src/takeoff/dependents.ts known': 'what moves with a name follows from the rules',
      'src/takeoff/dependents.ts readers': 'the rules turned over, once',
      'src/takeoff/house.ts known': 'of an office that was read',
      'src/takeoff/itemRules.ts rulesByOffice': 'of an office that was read',
      'src/takeoff/listedPrice.ts pricesByOffice': 'of an office that was read',
      'src/takeoff/results/grades.ts known': 'what rests on memory follows from the rules',
      'src/units.ts unitsBySpelling': 'filled while the module loads',
      'src/units.ts unitsInSmallLetters': 'filled while the module loads',
    }
    const found = sources
      .filter((name) => !['hosts', 'top'].includes(roomOf(name)))
      .flatMap((name) =>
        [...read(name).matchAll(/^(?:export )?(?:let (\w+)|const (\w+)(?:: [^=]+)? = new (?:Weak)?(?:Map|Set)(?:<.*>)?\(\))/gm)].map((match) => `${name} ${match[1] ?? match[2]}`),
      )
    expect(found.sort()).toEqual(Object.keys(kept).sort())
  })
  it('below hosts/ nothing touches Office, the DOM, the clock, chance or global state', () => {
    const banned = /\b(?:Office|Excel|CustomFunctions|document|window|localStorage|globalThis|process|fetch)\.|\bDate\.now\b|new Date\(\)|Math\.random|\bsetTimeout\b|\brequire\(/
    for (const file of sources.filter((name) => !['hosts', 'top'].includes(roomOf(name)))) {
      const code = withoutComments(read(file))
      expect(banned.exec(code)?.[0], file).toBeUndefined()
    }
  })
  it('no calculation scrolls: a file of one is a page at most', () => {
    for (const file of sources.filter((name) => /^src\/calc\/\w+\//.test(name) && read(name).includes(' = calc(')))
      expect(read(file).split('\n').length, file).toBeLessThanOrEqual(110)
  })
})

const withoutComments = (text: string): string => text.replace(/\/\*[\s\S]*?\*\/|\/\/.*$/gm, '')

describe('what a file gives away', () => {
  it('is used by another one: a constant, function or class that nobody asks for stays inside', () => {
    const texts = new Map(tracked.filter((file) => /\.m?ts$|\.mjs$/.test(file)).map((file) => [file, withoutComments(read(file))]))
    const unused = [...texts].flatMap(([file, text]) =>
      // The library's own door, and what node starts by name.
      /^(?:src|taskpane|functions|scripts)\//.test(file) && !['src/index.ts', 'scripts/cli.mjs'].includes(file)
        ? [...text.matchAll(/^export (?:async )?(?:const|let|function\*?|class) (\w+)/gm)].flatMap(([, name]) =>
            [...texts].some(([other, words]) => other !== file && new RegExp(`\\b${name}\\b`).test(words)) ? [] : [`${file} ${name}`],
          )
        : [],
    )
    expect(unused).toEqual([])
  })
})

describe('the tree', () => {
  it('each listed mistake can still be planted where it is listed', () => {
    for (const { file, was, now, why } of listedMutants) {
      expect(read(file).split(was).length - 1, `${file}: ${why}`).toBeGreaterThan(0)
      expect(now, why).not.toBe(was)
    }
  })
  it('switches no check off and names no machine', () => {
    const texts = tracked.filter((file) => /\.(?:ts|mjs|json|md|yml)$|^\.ci\//.test(file) && file !== 'package-lock.json' && file !== 'tests/architecture.test.ts')
    for (const file of texts) {
      expect(SWITCHES_OFF.exec(read(file))?.[0], file).toBeUndefined()
      expect(/(?:^|[^A-Za-z0-9_])\/(?:work|farm)\//.exec(read(file))?.[0], file).toBeUndefined()
    }
  })
  it('package-lock.json names no hosts', () => {
    expect(read('package-lock.json')).not.toContain('"resolved": "http')
  })
})
