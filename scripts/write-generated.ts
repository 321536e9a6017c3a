/** Writes what is generated from the definitions: docs/FUNCTIONS.md, and with --dist the files that the pages load. --check compares only. */
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { functionsMetadata } from '../functions/metadata.js'
import { helpPage, referencePage } from './reference.js'

const root = join(dirname(fileURLToPath(import.meta.url)), '..')
const read = (path: string) => readFileSync(join(root, path), 'utf8')

if (process.argv.includes('--dist')) {
  mkdirSync(join(root, 'dist'), { recursive: true })
  writeFileSync(join(root, 'dist/functions.json'), JSON.stringify(functionsMetadata(), null, 1))
  writeFileSync(join(root, 'dist/help.html'), helpPage(referencePage()))
} else {
  const path = 'docs/FUNCTIONS.md'
  const text = referencePage()
  if (process.argv.includes('--check')) {
    if (!existsSync(join(root, path)) || read(path) !== text) {
      console.error(`${path} is out of date: run \`npm run docs\`.`)
      process.exitCode = 1
    }
  } else writeFileSync(join(root, path), text)
}
