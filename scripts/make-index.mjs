// Writes the indexes (calculations, tables, kinds of sheets) from the folder listing, so that no list is kept by hand.
// `node scripts/make-index.mjs --check` only compares and exits with 1 when one is out of date.
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'

const root = join(dirname(fileURLToPath(import.meta.url)), '..')
const chapters = [.../export const chapters = \{([^}]*)\}/.exec(readFileSync(join(root, 'src/calc.ts'), 'utf8'))[1].matchAll(/(\w+):/g)].map(([, chapter]) => chapter)
const strangers = readdirSync(join(root, 'src/calc'), { withFileTypes: true }).filter((entry) => entry.isDirectory() && !chapters.includes(entry.name))
if (strangers.length) throw new Error(`src/calc/${strangers[0].name}: a chapter that chapters in src/calc.ts does not name.`)
const head = '// Made by scripts/make-index.mjs from the folder listing; run `npm run index` after adding a file.\n'

const filesIn = (folder) =>
  readdirSync(join(root, folder))
    .filter((name) => name.endsWith('.ts') && name !== 'index.ts')
    .sort()
const namesIn = (path, pattern) => [...readFileSync(join(root, path), 'utf8').matchAll(pattern)].map((match) => match[1])

function calculationsIndex() {
  const found = chapters.flatMap((chapter) =>
    filesIn(`src/calc/${chapter}`).flatMap((file) =>
      namesIn(`src/calc/${chapter}/${file}`, /^export const (\w+) = calc\(/gm).map((name) => ({ name, from: `./${chapter}/${file.replace('.ts', '.js')}` })),
    ),
  )
  const imports = found.map(({ name, from }) => `import { ${name} } from '${from}'`).join('\n')
  const list = found.map(({ name }) => `  ${name},`).join('\n')
  return `${head}import type { AnyCalculation } from '../calc.js'\n${imports}\n\nexport const calculations: readonly AnyCalculation[] = [\n${list}\n]\n\nexport {\n${list}\n}\n`
}

function tablesIndex() {
  const found = filesIn('src/tables').flatMap((file) =>
    namesIn(`src/tables/${file}`, /^export const (\w+) = table\(/gm).map((name) => ({ name, from: `./${file.replace('.ts', '.js')}` })),
  )
  const byFile = Map.groupBy ? Map.groupBy(found, ({ from }) => from) : found.reduce((groups, item) => groups.set(item.from, [...(groups.get(item.from) ?? []), item]), new Map())
  const imports = [...byFile].map(([from, items]) => `import { ${items.map(({ name }) => name).join(', ')} } from '${from}'`).join('\n')
  return `${head}import type { Table } from '../table.js'\n${imports}\n\nexport const tables: readonly Table[] = [${found.map(({ name }) => name).join(', ')}]\n`
}

function sheetKindsIndex() {
  const found = filesIn('src/plan/sheets').flatMap((file) => {
    const path = `src/plan/sheets/${file}`
    const places = namesIn(path, /\bplace: (\d+)/g)
    return namesIn(path, /^export const (\w+) = sheetKind\(/gm).map((name, at) => ({ name, place: Number(places[at]), from: `./${file.replace('.ts', '.js')}` }))
  })
  const imports = found.map(({ name, from }) => `import { ${name} } from '${from}'`).join('\n')
  const list = [...found].sort((one, other) => one.place - other.place).map(({ name }) => name)
  return `${head}${imports}\n\n/** From the left of the workbook to the right. */\nexport const sheetKinds = [${list.join(', ')}] as const\nexport type SheetKindName = (typeof sheetKinds)[number]['kind']\n`
}

const check = process.argv.includes('--check')
for (const [path, text] of [
  ['src/calc/index.ts', calculationsIndex()],
  ['src/tables/index.ts', tablesIndex()],
  ['src/plan/sheets/index.ts', sheetKindsIndex()],
]) {
  const full = join(root, path)
  if (check) {
    if (!existsSync(full) || readFileSync(full, 'utf8') !== text) {
      console.error(`${path} is out of date: run \`npm run index\`.`)
      process.exitCode = 1
    }
  } else writeFileSync(full, text)
}
