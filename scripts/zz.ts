import { makeFile } from '../src/hosts/makeFile.js'
import { demoSource } from '../src/hosts/fileSession.js'
import { readOffice } from '../src/takeoff/office.js'
import { makeTakeoff } from '../src/takeoff/takeoff.js'
import { made } from './bench/measure.js'
import { manyJobs } from './bench/offices.js'
const n = Number(process.argv[2])
const raw = manyJobs(n)
const office = readOffice(raw)
const say = (w: string) => {
  ;(globalThis as any).gc?.()
  const m = process.memoryUsage()
  console.log(
    w,
    Object.entries(m)
      .map(([k, v]) => k + ' ' + Math.round(v / 1e6))
      .join(' '),
  )
}
say('start')
let i = 0
const { bytes } = makeFile(
  demoSource(raw),
  (function* () {
    for (const job of office.tables.Jobs) {
      if (i++ % 25 === 0) say('job ' + i)
      if (i === 77) process.exit(0)
      yield { takeoff: makeTakeoff(office, job), revision: 1 }
    }
  })(),
  'native',
  made,
)
say('end')
console.log(bytes.length / 1e6, process.resourceUsage().maxRSS / 1024)
