/** LibreOffice Calc as the independent check: recalculates a workbook, or prints it. */
import { execFile, execFileSync } from 'node:child_process'
import { existsSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { basename, join } from 'node:path'
import { pathToFileURL } from 'node:url'

const candidates = ['/usr/bin/soffice', '/usr/lib/libreoffice/program/soffice', '/opt/libreoffice/program/soffice', '/Applications/LibreOffice.app/Contents/MacOS/soffice']
export const calcPath = process.env.SOFFICE ?? candidates.find((path) => existsSync(path))
export const hasCalc = calcPath !== undefined
const pdfToText = process.env.PDFTOTEXT ?? ['/usr/bin/pdftotext', '/usr/local/bin/pdftotext', '/opt/homebrew/bin/pdftotext'].find((path) => existsSync(path))
export const canReadPdf = pdfToText !== undefined
/** The text of each page. */
export const pagesOf = (pdf: string): string[] => execFileSync(pdfToText!, ['-layout', pdf, '-'], { encoding: 'utf8', maxBuffer: 64e6 }).split('\f')

const item = (path: string, name: string, value: string | number, type: string) =>
  `<item oor:path="${path}"><prop oor:name="${name}" oor:op="fuse"><value xsi:type="xs:${type}">${value}</value></prop></item>`
/** Always recalculate on load, in US English, without the first-start tour. */
const settings = `<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry" xmlns:xs="http://www.w3.org/2001/XMLSchema" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance">
${item('/org.openoffice.Office.Calc/Formula/Load', 'OOXMLRecalcMode', 0, 'int')}
${item('/org.openoffice.Office.Calc/Formula/Load', 'ODFRecalcMode', 0, 'int')}
${item('/org.openoffice.Setup/L10N', 'ooLocale', 'en-US', 'string')}
${item('/org.openoffice.Setup/Product', 'ooSetupLastVersion', '7.4', 'string')}
</oor:items>`

/** Converts a file with a fresh profile; answers the path of the result. */
export async function convertWithCalc(file: string, kind: 'xlsx' | 'pdf' | 'csv', outFolder: string, timeout = 400_000): Promise<string> {
  const profile = mkdtempSync(join(tmpdir(), 'calc-profile-'))
  mkdirSync(join(profile, 'user'), { recursive: true })
  writeFileSync(join(profile, 'user', 'registrymodifications.xcu'), settings)
  const filter = kind === 'xlsx' ? 'xlsx:Calc MS Excel 2007 XML' : kind
  try {
    await new Promise<void>((resolve, reject) => {
      execFile(
        calcPath!,
        [`-env:UserInstallation=${pathToFileURL(profile).href}`, '--headless', '--norestore', '--convert-to', filter, '--outdir', outFolder, file],
        { timeout },
        (error) => (error ? reject(error) : resolve()),
      )
    })
  } finally {
    rmSync(profile, { recursive: true, force: true })
  }
  const result = join(outFolder, `${basename(file).replace(/\.[^.]+$/, '')}.${kind}`)
  if (!existsSync(result)) throw new Error(`Calc wrote no ${result}.`)
  return result
}
