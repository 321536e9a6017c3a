import { takeoffColumns } from '../../src/plan/sheets/takeoffColumns.js'
/** The commands as a person types them, in processes of their own. */
import { execFile } from 'node:child_process'
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync, utimesSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import ExcelJS from 'exceljs'
import { afterAll, describe, expect, it } from 'vitest'
import { crewColumns } from '../../src/plan/sheets/crewDraft.js'

const folder = mkdtempSync(join(tmpdir(), 'cistern-cli-'))
afterAll(() => rmSync(folder, { recursive: true, force: true }))
const at = (name: string) => join(folder, name)

function run(command: string, args: readonly string[], input?: string): Promise<{ code: number; out: string; err: string }> {
  return new Promise((resolve) => {
    const child = execFile(process.execPath, ['scripts/cli.mjs', command, ...args], { maxBuffer: 64 * 1024 * 1024 }, (error, out, err) =>
      resolve({ code: error ? Number(error.code) : 0, out: out.trim(), err: err.trim() }),
    )
    child.stdin!.end(input ?? '')
  })
}

describe('cell', () => {
  it('prints a result with full precision, a spilled table as rows, an error with status 1', async () => {
    const one = await run('cell', ['=CISTERN.FRICTIONLOSS(9,180,1.049,145)'])
    expect(one.code).toBe(0)
    expect(one.out).toMatch(/^\d\.\d{10,}$/)
    expect(await run('cell', ['=ROUND(CISTERN.PEAKFLOW(2500,"4.7 in/h"),2)+1'])).toMatchObject({ code: 0, out: '123.08' })
    const table = await run('cell', ['=CISTERN.WATERBALANCE({0;300},150,600,100)'])
    expect(JSON.parse(table.out)).toEqual([
      ['period', 'inflow', 'supplied', 'overflow', 'stored'],
      [1, 0, 100, 0, 0],
      [2, 300, 0, 0, 300],
    ])
    // For people the same as columns: numbers to six digits, long words run on below.
    const working = (await run('cell', ['--table', '=CISTERN.WORKING("PEAKFLOW",2500,4.7)'])).out.split('\n')
    expect(working[0]).toMatch(/^symbol\s+meaning\s+value\s+unit\s+formula\s+source$/)
    expect(working.find((line) => line.startsWith('flow_gpm'))).toMatch(
      /^flow_gpm\s+Flow off the roof\s+122\.078\s+gpm\s+area_ft2\*intensity_in_per_h\/96\.25\s+exact unit definitions/,
    )
    expect(Math.max(...working.map(({ length }) => length))).toBeLessThan(180)
    expect((await run('cell', ['--json', '=CISTERN.WORKING("PEAKFLOW",2500,4.7)'])).out).toMatch(/^\[\["symbol",/)
    expect((await run('cell', ['--help'])).out).toContain('Examples: npm run -s cell')
    expect(await run('cell', ['--tabel', '=1'])).toMatchObject({ code: 1, err: expect.stringMatching(/^No option --tabel; there are --sheet, --table, --json, --help/) })
    expect(await run('cell', ['=CISTERN.PEAKFLOW(-1,4)'])).toMatchObject({ code: 1, out: '#VALUE! Plan area of the roof (area): 0 to 10,000,000 ft²; got -1.' })
    expect((await run('cell', ['=CISTERN.NOTHING(1)'])).code).toBe(1)
    // Each line has its answer, one with nothing in it too.
    expect((await run('cell', [], '=1+1\n\n=2+2\n')).out.split('\n').map((line) => JSON.parse(line) as object)).toEqual([
      { value: 2 },
      { error: '#NAME?', message: 'a formula; got an empty line' },
      { value: 4 },
    ])
  })
  it('takes 10,000 lines through one process', async () => {
    const lines = Array.from({ length: 10_000 }, (_, line) => `=CISTERN.TANKVOLUME(${(line % 1000) + 1},1,1)`)
    lines[7] = '=CISTERN.PIPEBORE("PE IPS 200",9)'
    lines[8] = '=CISTERN.PUMPDUTY({0,180;8,160;16,110},100,10,12)'
    const { out, code } = await run('cell', [], lines.join('\n'))
    const answers = out.split('\n').map((line) => JSON.parse(line) as { value?: number; rows?: unknown[][]; error?: string; message?: string })
    expect(code).toBe(0)
    expect(answers).toHaveLength(10_000)
    // 1728/231 gal a cubic foot, by definition.
    expect(answers[9999]!.value).toBeCloseTo((1728 / 231) * 1000, 6)
    expect(answers[7]).toMatchObject({ error: '#N/A', message: expect.stringContaining('got "9"') })
    expect(answers[8]!.rows![0]).toEqual(['flow', 'head'])
  })
  it('loads CSV files as sheets', async () => {
    writeFileSync(at('rain.csv'), 'date,mm\n2026-01-01,10\n2026-01-02,\n2026-01-03,25.4\n')
    writeFileSync(at('use.csv'), '"a ""quoted"" head",2\n5,\n')
    expect((await run('cell', ['--sheet', `Rain=${at('rain.csv')}`, '--sheet', `Use=${at('use.csv')}`, '=SUM(Rain!B2:B4)+Use!A2'])).out).toBe('40.4')
    expect(await run('cell', ['--sheet', 'Rain', '=1'])).toMatchObject({ code: 1, err: '--sheet takes NAME=FILE.csv; got Rain.' })
  })
})

describe('takeoff and template', () => {
  it('makes the demo, one line a job', async () => {
    const { out, code } = await run('takeoff', ['--all', '--out', at('demo.xlsx')])
    expect(code).toBe(0)
    expect(out.split('\n').filter((line) => /^\S.*: \d+ lines/.test(line))).toHaveLength(5)
    expect(out).toMatch(/^ {2}check {2}Tank volume: .*Means hide dry spells/m)
    expect(out).toMatch(/^Wicket Mill: \d\d lines, order cost \$[\d,.]+, total \$[\d,.]+; \d+ pass, \d+ check, \d+ stop; \d+ cautions$/m)
  })
  it('reads a workbook that template wrote and a person filled in', async () => {
    expect((await run('template', [at('office.xlsx'), '--demo'])).code).toBe(0)
    const workbook = new ExcelJS.Workbook()
    await workbook.xlsx.readFile(at('office.xlsx'))
    const jobs = workbook.getWorksheet('Jobs')!
    const column = (name: string) => (jobs.getRow(5).values as unknown[]).indexOf(name)
    const cells: Record<string, string | number> = {
      Job: 'Least',
      RoofArea_ft2: '200 m2',
      RainStation: 'low fallow',
      People: 2,
      TankModel: 'Quern 1200',
      WaterLineRun_ft: 60,
      PowerRun_ft: 60,
    }
    for (const [name, value] of Object.entries(cells)) jobs.getCell(11, column(name)).value = value
    await workbook.xlsx.writeFile(at('office.xlsx'))
    const { out, code } = await run('takeoff', [at('office.xlsx'), '--job', 'least', '--out', at('least.xlsx')])
    expect(code, out).toBe(0)
    expect(out).toMatch(/^Least: /)
  })
  it('made again from its own workbook, keeps what the estimator typed', async () => {
    await run('takeoff', ['--job', 'Wicket Mill', '--out', at('first.xlsx')])
    const workbook = new ExcelJS.Workbook()
    await workbook.xlsx.readFile(at('first.xlsx'))
    const takeoff = workbook.getWorksheet('Takeoff Wicket Mill')!
    const codes = takeoff.getColumn(2).values as unknown[]
    takeoff.getCell(codes.indexOf('TIE-BOOT'), takeoffColumns.yours).value = 11
    const added = codes.indexOf('ADDED BY HAND') + 1
    Object.entries({ [takeoffColumns.code]: 'GATE', [takeoffColumns.description]: 'Farm gate', [takeoffColumns.yours]: 2, [takeoffColumns.price]: 45.5 }).forEach(
      ([column, value]) => (takeoff.getCell(added, Number(column)).value = value),
    )
    await workbook.xlsx.writeFile(at('edited.xlsx'))
    await run('takeoff', [at('edited.xlsx'), '--job', 'Wicket Mill', '--out', at('second.xlsx')])
    const again = new ExcelJS.Workbook()
    await again.xlsx.readFile(at('second.xlsx'))
    const sheet = again.getWorksheet('Takeoff Wicket Mill')!
    const rows = sheet.getColumn(2).values as unknown[]
    expect(sheet.getCell(rows.indexOf('TIE-BOOT'), takeoffColumns.yours).value).toBe(11)
    expect(sheet.getCell(rows.indexOf('TIE-BOOT'), takeoffColumns.order).result).toBe(11)
    expect(sheet.getCell(rows.indexOf('GATE'), takeoffColumns.amount).result).toBe(91)
  })
  it('names every problem, exits with 1 and leaves an existing file alone', async () => {
    await run('template', [at('bad.xlsx'), '--demo'])
    const workbook = new ExcelJS.Workbook()
    await workbook.xlsx.readFile(at('bad.xlsx'))
    const jobs = workbook.getWorksheet('Jobs')!
    const column = (name: string) => (jobs.getRow(5).values as unknown[]).indexOf(name)
    jobs.getCell(6, column('RoofArea_ft2')).value = 'big'
    jobs.getCell(6, column('People')).value = -2
    await workbook.xlsx.writeFile(at('bad.xlsx'))
    writeFileSync(at('kept.xlsx'), 'precious')
    const { err, out, code } = await run('takeoff', [at('bad.xlsx'), '--all', '--out', at('kept.xlsx')])
    expect(code).toBe(1)
    expect(err.split('\n')).toEqual(['Jobs, row 6, RoofArea_ft2: 1 to 1,000,000 ft²; got "big".', 'Jobs, row 6, People: 0 to 10,000; got -2.', '2 problems; nothing was written.'])
    expect(out).toBe('')
    expect(readFileSync(at('kept.xlsx'), 'utf8')).toBe('precious')
    expect(readdirSync(folder).filter((name) => name.endsWith('.part'))).toEqual([])
  })
  it('what a run left that was ended while it wrote is taken away a day later, and nothing else', async () => {
    const yesterday = new Date(Date.now() - 2 * 86_400_000)
    for (const name of ['tidy.xlsx.4711.part', 'tidy.xlsx.4712.part', 'tidy.xlsx.notes.part', 'other.xlsx.4711.part']) {
      writeFileSync(at(name), 'half')
      const then = name === 'tidy.xlsx.4712.part' ? new Date(Date.now() - 2 * 3_600_000) : yesterday
      utimesSync(at(name), then, then)
    }
    await run('template', [at('tidy.xlsx'), '--demo'])
    expect(readdirSync(folder).filter((name) => name.endsWith('.part'))).toEqual(['other.xlsx.4711.part', 'tidy.xlsx.4712.part', 'tidy.xlsx.notes.part'])
    for (const name of ['other.xlsx.4711.part', 'tidy.xlsx.4712.part', 'tidy.xlsx.notes.part']) rmSync(at(name))
  })
  it('without a file to write it says what the jobs come to, and what changed since they were made', async () => {
    await run('template', [at('shown.xlsx'), '--demo'])
    await run('takeoff', [at('shown.xlsx'), '--job', 'Fernlow 12', '--out', at('shown.xlsx')])
    const workbook = new ExcelJS.Workbook()
    await workbook.xlsx.readFile(at('shown.xlsx'))
    const jobs = workbook.getWorksheet('Jobs')!
    const row = (jobs.getColumn(2).values as unknown[]).indexOf('Fernlow 12')
    jobs.getCell(row, (jobs.getRow(5).values as unknown[]).indexOf('WaterLineRun_ft')).value = 300
    await workbook.xlsx.writeFile(at('shown.xlsx'))
    const before = readFileSync(at('shown.xlsx'))
    const { out, err, code } = await run('takeoff', [at('shown.xlsx'), '--job', 'Fernlow 12'])
    expect([err, code]).toEqual(['', 0])
    expect(out).toMatch(
      /^Fernlow 12: \d+ lines, order cost \$[\d,.]+, total \$[\d,.]+;[\s\S]*since revision 1 \+\$[\d,.]+; \d+ changes of lines[\s\S]*Nothing was written; with --out FILE it is\./,
    )
    expect(readFileSync(at('shown.xlsx')).equals(before)).toBe(true)
  })
  it('a job whose name no sheet can have is named at its row, by whatever it is asked for', async () => {
    await run('template', [at('long.xlsx'), '--demo'])
    const workbook = new ExcelJS.Workbook()
    await workbook.xlsx.readFile(at('long.xlsx'))
    workbook.getWorksheet('Jobs')!.getCell('B6').value = 'Fernlow Lane Number Twelve A, upper'
    await workbook.xlsx.writeFile(at('long.xlsx'))
    for (const more of [['--all'], ['--job', 'Fernlow Lane Number Twelve A, upper']])
      expect(await run('takeoff', [at('long.xlsx'), ...more, '--out', at('none.xlsx')])).toMatchObject({ code: 1, err: expect.stringMatching(/\nJobs, row 6, Job: /) })
  })
  it('does not write over what an office filled in', async () => {
    const filled = at('filled.xlsx')
    await run('template', ['--demo', filled])
    const before = readFileSync(filled)
    const again = await run('template', [filled])
    expect(again).toMatchObject({ code: 1, err: expect.stringContaining('add --replace') })
    expect(readFileSync(filled).equals(before)).toBe(true)
    const workbook = new ExcelJS.Workbook()
    await workbook.xlsx.load(before.buffer.slice(before.byteOffset, before.byteOffset + before.length) as ArrayBuffer)
    workbook.addWorksheet('My notes').getCell('A1').value = 'gate code at the office'
    await workbook.xlsx.writeFile(filled)
    // Onto itself: the sheets of the job come in, everything else stays.
    expect(await run('takeoff', [filled, '--job', 'Fernlow 12', '--job', 'fernlow 12 ', '--out', filled])).toMatchObject({ code: 0 })
    await workbook.xlsx.readFile(filled)
    expect(workbook.getWorksheet('My notes')!.getCell('A1').value).toBe('gate code at the office')
    const crew = workbook.getWorksheet('Crew Fernlow 12')!
    const row = (crew.getColumn(crewColumns.code).values as unknown[]).indexOf('A1')
    crew.getCell(row, crewColumns.done).value = 'R. Voss'
    await workbook.xlsx.writeFile(filled)
    // A forgotten input, or another one, does not take its place.
    const forgotten = await run('takeoff', ['--job', 'Fernlow 12', '--out', filled])
    expect(forgotten).toMatchObject({ code: 1, err: expect.stringMatching(/it exists and stays as it is: .*the sheet My notes would be lost.*add --replace. Nothing was written/) })
    expect((await run('takeoff', [filled, '--job', 'Fernlow 12', '--out', filled])).code).toBe(0)
    await workbook.xlsx.readFile(filled)
    expect(workbook.getWorksheet('Crew Fernlow 12')!.getCell(row, crewColumns.done).value).toBe('R. Voss')
    // Nothing of the job has changed: the revision stands.
    expect(workbook.getWorksheet('Takeoff Fernlow 12')!.getCell('B3').value).toMatch(/revision 1/)
  })
  it.each([
    [['takeoff', '--out', 'x.xlsx', 'nothere.xlsx'], /nothere\.xlsx: there is no such file/],
    [['takeoff', '--quote'], /--out is missing/],
    [['takeoff', '--out', 'x.xlsx', '--out=y.xlsx'], /^--out: once; it came again\./],
    [
      ['takeoff', '--ouput', 'x.xlsx'],
      /No option --ouput; there are --job, --all, --out, --json, --flavor, --replace, --calendar, --quote, --change, --order, --record, --handover, --help\. Usage: npm run -s takeoff/,
    ],
    [['takeoff', '--out', 'x.xlsx', '--job', 'Nobody'], /--job: one of Fernlow 12, .*; got Nobody/],
    [['takeoff', '--out', 'x.xlsx', '--flavor', 'plain'], /--flavor takes native or cells; got plain/],
    [['takeoff', '--out', 'x.xlsx', '--job', 'Fernlow 12', '--all'], /--job or --all, not both/],
    [['template'], /Usage/],
    [['template', 'x.xlsx', '--unit', 'mm', '--demo'], /^A new workbook takes --demo, --replace; got --unit\. Usage/],
    [['template', 'x.xlsx', '--update', '--demo'], /^--update takes --update, --only; got --demo\. Usage/],
    [['template', 'x.csv', '--demo'], /A name that ends in \.xlsx; got x\.csv/],
    [['cell', '=2^1000000'], /^$/],
    [['cell', '--sheet', 'D=nothere.csv', '=1'], /--sheet: a CSV file that can be read; got nothere\.csv/],
    [['cell', '--sheet', 'D=package.json', '--sheet', 'd=package.json', '=1'], /--sheet: each name once; d came again/],
  ])('%j is refused in words', async ([command, ...args], message) => {
    const { err, code } = await run(command!, args)
    expect(code).toBe(1)
    expect(err).toMatch(message)
    expect(existsSync('x.xlsx')).toBe(false)
  })
})
