/** The entry in Excel: functions and pane in one shared runtime. */
import { isOfficeMissing } from '../functions/first.js'
import { bindFunctions } from '../functions/bind.js'
import { ExcelHost } from '../src/hosts/excel.js'
import { Pane } from './pane/pane.js'
import { Settings } from './pane/settings.js'
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
  else {
    const has = (set: string, version: string) => Office.context.requirements.isSetSupported(set, version)
    if (!has('ExcelApi', '1.9'))
      return say(
        'This Excel is too old for the pane: it needs the interface ExcelApi 1.9 (2019, or any of the subscription). Make the takeoff with the command line. Nothing in the workbook was changed.',
      )
    // A workbook with calls opens with the functions there, and not at #NAME?; one without them troubles nobody who lacks the add-in.
    const host = new ExcelHost(undefined, has, () => {
      if (has('SharedRuntime', '1.1')) void Office.addin.setStartupBehavior(Office.StartupBehavior.load).catch(() => undefined)
    })
    void Settings.open().then((settings) => new Pane(root, host, made, settings).refresh())
  }
})
