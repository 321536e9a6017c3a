/** What a takeoff is made with, fetched by the pane when the first one is made. */
export { earlierFrom } from '../plan/earlier.js'
export { jobSheetNames, jobSheets } from '../plan/jobSheets.js'
export { keptFrom } from '../plan/kept.js'
export { makingNotes } from '../plan/makingNotes.js'
export { ORDER_OUT_OF_DATE, ORDER_TOGETHER, orderOutOfDate, OrderTogether } from '../plan/orderTogether.js'
export { tablesSheet } from '../plan/tablesSheet.js'
export { isNothing } from '../takeoff/typed.js'
export { isOurs, renewedNote, renewedWords, typingLostOf } from './lostTyping.js'
