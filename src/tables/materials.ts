import { cite } from '../sources.js'
import { table } from '../table.js'

/** Resistance of pipe walls in three formulas: Hazen–Williams C, Darcy roughness, Manning n. */
export const materials = table({
  id: 'Materials',
  title: 'Pipe wall: Hazen–Williams C, roughness, Manning n',
  source: cite('epaManual', 'Tables 3.1 and 3.2'),
  notes: ['Design C for PE and PVC: 150 in Illinois Administrative Code 77-906, 140 the cautious value. Plastic sewer pipe is commonly figured with n 0.009 to 0.010, below the range printed for plastic.'],
  rows: [
    { material: 'plastic', smoothnessLow: 140, smoothnessHigh: 150, roughnessLow_in: 0.00006, roughnessHigh_in: 0.00006, manningLow: 0.011, manningHigh: 0.015 },
    { material: 'steel', smoothnessLow: 140, smoothnessHigh: 150, roughnessLow_in: 0.0018, roughnessHigh_in: 0.0018, manningLow: 0.015, manningHigh: 0.017 },
    { material: 'cast iron', smoothnessLow: 130, smoothnessHigh: 140, roughnessLow_in: 0.0102, roughnessHigh_in: 0.0102, manningLow: 0.012, manningHigh: 0.015 },
    { material: 'concrete', smoothnessLow: 120, smoothnessHigh: 140, roughnessLow_in: 0.012, roughnessHigh_in: 0.12, manningLow: 0.012, manningHigh: 0.017 },
    { material: 'galvanized iron', smoothnessLow: 120, smoothnessHigh: 120, roughnessLow_in: 0.006, roughnessHigh_in: 0.006, manningLow: 0.015, manningHigh: 0.017, source: cite('epaManual', 'Table 3.2', 'from memory') },
    { material: 'vitrified clay', smoothnessLow: 110, smoothnessHigh: 110, roughnessLow_in: null, roughnessHigh_in: null, manningLow: 0.013, manningHigh: 0.015 },
    { material: 'PVC sewer practice', smoothnessLow: 140, smoothnessHigh: 150, roughnessLow_in: 0.000084, roughnessHigh_in: 0.000084, manningLow: 0.009, manningHigh: 0.01, source: cite('practice', 'n of 0.009 to 0.010 for PVC drains') },
  ],
})
