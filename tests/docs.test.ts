/** What is generated is current, and what the README promises exists. */
import { execFileSync } from 'node:child_process'
import { existsSync, readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { calculations } from '../src/calc/index.js'
import { sheetKinds } from '../src/plan/sheets/index.js'
import { tableNames } from '../src/takeoff/officeTables.js'
import { verdictRules } from '../src/takeoff/verdicts.js'
import packageJson from '../package.json'

const readme = readFileSync('README.md', 'utf8')
const developers = readFileSync('DEVELOPERS.md', 'utf8')

describe('documents', () => {
  it('docs/FUNCTIONS.md is what the definitions make it, examples computed', () => {
    execFileSync(process.execPath, ['node_modules/tsx/dist/cli.mjs', 'scripts/write-generated.ts', '--check'])
    const page = readFileSync('docs/FUNCTIONS.md', 'utf8')
    for (const { id } of calculations) expect(page).toContain(`### ${id}(`)
  })
  it('commands and pictures of the documents exist', () => {
    const scripts = packageJson.scripts as Record<string, string>
    for (const text of [readme, developers, ...['GUIDE', 'EXCEL'].map((name) => readFileSync(`docs/${name}.md`, 'utf8'))]) {
      for (const match of text.matchAll(/npm run (?:-s )?([a-z:]+)/g)) expect(scripts[match[1]!], match[0]).toBeDefined()
      for (const match of text.matchAll(/\]\(((?:docs\/|LICENSE)[^)]*)\)/g)) expect(existsSync(match[1]!), match[1]).toBe(true)
    }
  })
  it('the README counts the verdicts as they are', () => {
    expect(readme).toContain(`${verdictRules.length} verdicts`)
  })
  it('the guide names every sheet that a job gets and every table of the office', () => {
    const guide = readFileSync('docs/GUIDE.md', 'utf8')
    for (const { prefix } of sheetKinds) expect(`${readme}\n${guide}`, prefix).toMatch(new RegExp(`\\*${prefix}\\*`))
    for (const table of tableNames) expect(`${readme}\n${guide}`, table).toMatch(new RegExp(`\\*{1,2}[^*]*\\b${table}\\b[^*]*\\*{1,2}`))
  })
  it('every dependency is explained to contributors and pinned', () => {
    for (const [name, version] of Object.entries({ ...packageJson.dependencies, ...packageJson.devDependencies })) {
      expect(version, name).toMatch(/^\d+\.\d+\.\d+(?:-[\w.]+)?$/)
      if (name !== '@types/node') expect(developers, name).toContain(name)
    }
  })
  it('the ribbon page links to the same content', () => {
    expect(readFileSync('dist/help.html', 'utf8')).toContain('FRICTIONLOSS(flow, length, bore, [smoothness])')
  })
})
