import { office } from '../results/rule.js'
import { column, type RowList } from './rowList.js'

/** The roofs of a job: that of its row, then those of the sheet Catchments. */
export const roofs = {
  title: () => 'Roofs: that of the job row, then those of the sheet Catchments',
  heading: 'Roof',
  restsOn: ['RoofArea_ft2', 'RoofSurface'],
  rows: ({ catchments }) =>
    catchments.map(({ area_ft2, surface, inlet }, at) => ({
      name: String(at + 1),
      cells: { CatchInlet: inlet, ...(at === 0 ? {} : { CatchArea_ft2: area_ft2, CatchSurface: surface }) },
    })),
  columns: [
    column('CatchArea_ft2', 'Plan area', ['RoofArea_ft2'], office, { decimals: 0 }),
    column('CatchSurface', 'Surface', ['RoofSurface'], office, { isText: true }),
    column('CatchInlet', 'Drains into', '', office, { isText: true }),
    column('CatchRunoff', 'Runoff', 'INDEX(Roofs[Runoff],MATCH(CatchSurface,Roofs[Surface],0))', office, { decimals: 2 }),
  ],
} as const satisfies RowList
