import { demoTakeoff } from '../tests/support/office.js'
import { jobSheets } from '../src/plan/jobSheets.js'
import { standardPlaces } from '../src/plan/places.js'
for (const job of ['Wicket Mill','Pipit Hollow']) {
const q = jobSheets(demoTakeoff(job), standardPlaces(), 'native', {date:'2026-11-26',revision:1,version:'x'}).find(p=>p.kind==='quote')!
console.log(q.cells.map(c=>`${c.row} ${c.column} ${c.value}`).join('\n'), q.print)
}
