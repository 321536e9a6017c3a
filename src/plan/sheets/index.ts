// Made by scripts/make-index.mjs from the folder listing; run `npm run index` after adding a file.
import { amend } from './amendSheet.js'
import { changes } from './changesSheet.js'
import { checks } from './checksSheet.js'
import { crew } from './crewSheet.js'
import { design } from './designSheet.js'
import { drawing } from './drawingSheet.js'
import { handover } from './handoverSheet.js'
import { options } from './optionsSheet.js'
import { order } from './orderSheet.js'
import { proof } from './proofSheet.js'
import { quote } from './quoteSheet.js'
import { site } from './siteSheet.js'
import { takeoff } from './takeoffSheet.js'
import { test } from './testSheet.js'
import { working } from './workingSheet.js'
import { year } from './yearSheet.js'

/** From the left of the workbook to the right. */
export const sheetKinds = [takeoff, quote, options, order, amend, changes, design, site, crew, drawing, test, handover, year, proof, checks, working] as const
export type SheetKindName = (typeof sheetKinds)[number]['kind']
