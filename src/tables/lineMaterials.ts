import { cite } from '../sources.js'
import { table } from '../table.js'

/** Speed of a pressure wave in the polyethylene of a water line: 4660 / √(1 + (K / E)(DR − 2)), moduli from memory. */
export const lineWaves = table({
  id: 'LineWaves',
  title: 'Speed of the pressure wave in polyethylene pipe',
  source: cite('memory', 'wave speed 4660 / √(1 + (K / E)(DR − 2)), moduli from memory'),
  notes: ['DR counts the outside diameter: SIDR 7 is DR 9, SIDR 9 is DR 11, tubing SDR 9 is DR 9.'],
  rows: [
    { pipe: 'PE IPS 80', wave_fps: 746 }, { pipe: 'PE IPS 100', wave_fps: 837 }, { pipe: 'PE IPS 125', wave_fps: 951 },
    { pipe: 'PE IPS 160', wave_fps: 1069 }, { pipe: 'PE IPS 200', wave_fps: 1203 }, { pipe: 'PE CTS', wave_fps: 1203 },
  ],
})

/** What is left of the rating of polyethylene in warm water. */
export const lineHeat = table({
  id: 'LineHeat',
  title: 'Share of the pressure rating of polyethylene left in warm water',
  source: cite('pe100Heat'),
  notes: ['Factors of PE100. Between two rows the warmer one counts.'],
  rows: [
    { upTo_F: 77, left: 1 }, { upTo_F: 86, left: 0.94 }, { upTo_F: 95, left: 0.89 },
    { upTo_F: 104, left: 0.84 }, { upTo_F: 113, left: 0.79 }, { upTo_F: 122, left: 0.76 },
  ],
})

/** The same by the factors in use for coils of the US. */
export const lineHeatUs = table({
  id: 'LineHeatUs',
  title: 'Share of the pressure rating of polyethylene left in warm water, as used for coils of the US',
  source: cite('memory', 'Plastics Pipe Institute handbook: 1.00 at 73 °F, straight down to 0.50 at 140 °F'),
  notes: ['1 - 0.5 (T - 73) / 67, rounded down to the hundredth. Between two rows the warmer one counts.'],
  rows: [
    { upTo_F: 73, left: 1 }, { upTo_F: 77, left: 0.97 }, { upTo_F: 86, left: 0.9 }, { upTo_F: 95, left: 0.83 },
    { upTo_F: 104, left: 0.76 }, { upTo_F: 113, left: 0.7 }, { upTo_F: 122, left: 0.63 },
  ],
})
