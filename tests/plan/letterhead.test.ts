/** The letterhead of papers: whatever its length, the licence stands on them whole. */
import { expect, it } from 'vitest'
import { jobSheets } from '../../src/plan/jobSheets.js'
import { standardPlaces } from '../../src/plan/places.js'
import { makeTakeoff } from '../../src/takeoff/takeoff.js'
import { readOffice } from '../../src/takeoff/office.js'
import { demoRows, leastRow, officeWith } from '../support/office.js'

it.each([25, 54, 62])('a licence of %d letters', (letters) => {
  const licence = 'General contractor 000 417, of the state board of contractors and of the county'.slice(0, letters).trim()
  const House = [
    {
      ...demoRows('House')[0]!,
      Address: '12 Long Mill Lane, Upper Alder Reach, Fallow County 00417'.slice(0, 56),
      Contact: '555-0142, 555-0143, office and yard@underbrook.example',
      Licence: licence,
    },
  ]
  const office = readOffice(officeWith({ House, Jobs: [leastRow] }))
  const plans = jobSheets(makeTakeoff(office, office.tables.Jobs[0]!), standardPlaces(), 'native', { date: '2026-11-25', revision: 1, version: 'test' })
  for (const kind of ['quote', 'order', 'site', 'test', 'handover']) {
    const { cells } = plans.find((plan) => plan.kind === kind)!
    expect(cells.filter(({ row, value }) => row <= 4 && String(value ?? '').includes(licence)).length, kind).toBe(1)
  }
})
