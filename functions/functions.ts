/** The entry of the functions alone: used where Excel runs them without the pane. */
import './first.js'
import { bindFunctions } from './bind.js'

bindFunctions()
