/** What a takeoff is made with, fetched by the pane when the first one is made. */
export { jobSheetNames, jobSheets } from './jobSheets.js'
export { earlierFrom } from './earlier.js'
export { keptFrom } from './kept.js'
export { tablesSheet } from './tablesSheet.js'
