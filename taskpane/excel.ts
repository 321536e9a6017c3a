/** The entry in Excel: functions and pane in one shared runtime. */
import { isOfficeMissing } from '../functions/first.js'
import { bindFunctions } from '../functions/bind.js'
import { ExcelHost } from '../src/hosts/excel.js'
import { Pane } from './pane/pane.js'
import { made } from './version.js'

bindFunctions()

const root = document.getElementById('pane')!
const say = (words: string) => (root.textContent = words)

void Office.onReady(({ host }) => {
  if (isOfficeMissing())
    say(
      'The script office.js did not load, so Excel cannot be reached from here. Check that this machine reaches appsforoffice.microsoft.com, then reopen the pane. Nothing in the workbook was changed.',
    )
  else if (host !== Office.HostType.Excel) say('Cistern Sheet works in Excel. Open the add-in from a workbook.')
  else void new Pane(root, new ExcelHost(), made).refresh()
})
