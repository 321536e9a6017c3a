/** The manifest read by Microsoft's own reader, and held to the published rules without a network. */
import { readFileSync } from 'node:fs'
import { OfficeAddinManifest } from 'office-addin-manifest'
import { describe, expect, it } from 'vitest'

const path = 'manifest.xml'
const xml = readFileSync(path, 'utf8')
const all = (pattern: RegExp) => [...xml.matchAll(pattern)]

/** Width and height of a PNG stand at fixed places in its header. */
function pngSize(file: string): [number, number] {
  const bytes = readFileSync(file)
  expect(bytes.subarray(1, 4).toString()).toBe('PNG')
  return [bytes.readUInt32BE(16), bytes.readUInt32BE(20)]
}

describe('manifest.xml', () => {
  it('is read by office-addin-manifest', async () => {
    const { id, version, displayName, hosts, permissions, defaultSettings } = await OfficeAddinManifest.readManifestFile(path)
    expect(id).toMatch(/^[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}$/)
    expect({ version, displayName, hosts, permissions }).toEqual({ version: '1.0.0.0', displayName: 'Cistern Sheet', hosts: ['Workbook'], permissions: 'ReadWriteDocument' })
    expect(defaultSettings!.sourceLocation).toBe('https://localhost:3000/taskpane.html')
  })
  it('has the shared runtime, the functions and the button in the order asked for', () => {
    const order = [
      '<Runtimes>',
      '<Runtime resid="Taskpane.Url" lifetime="long"/>',
      '<AllFormFactors>',
      'xsi:type="CustomFunctions"',
      '<Script>',
      '<Page>',
      '<Metadata>',
      '<Namespace',
      '</AllFormFactors>',
      '<DesktopFormFactor>',
      'xsi:type="PrimaryCommandSurface"',
      '<Resources>',
      '<bt:Images>',
      '<bt:Urls>',
      '<bt:ShortStrings>',
      '<bt:LongStrings>',
    ]
    const places = order.map((part) => xml.indexOf(part))
    expect(
      places.every((place) => place > 0),
      JSON.stringify(places),
    ).toBe(true)
    expect([...places].sort((one, other) => one - other)).toEqual(places)
    // Asked for where functions are, and not of the pane: an Excel without it makes takeoffs in ordinary formulas.
    const overrides = xml.indexOf('<VersionOverrides')
    expect(xml.indexOf('<bt:Set Name="SharedRuntime" MinVersion="1.1"/>')).toBeGreaterThan(overrides)
    expect(xml.slice(0, overrides)).not.toContain('SharedRuntime')
  })
  it('resolves and uses every resid, none too long', () => {
    const defined = all(/<bt:(?:Image|Url|String) id="([^"]+)"/g).map((match) => match[1]!)
    const used = all(/resid="([^"]+)"/g).map((match) => match[1]!)
    expect([...new Set(used)].sort()).toEqual([...defined].sort())
    expect(new Set(defined).size).toBe(defined.length)
    for (const resid of defined) expect(resid.length).toBeLessThanOrEqual(32)
  })
  it('keeps the lengths, and https everywhere', () => {
    const strings = (kind: string) =>
      /<bt:ShortStrings>([\s\S]*)<\/bt:ShortStrings>[\s\S]*<bt:LongStrings>([\s\S]*)<\/bt:LongStrings>/.exec(xml)![kind === 'short' ? 1 : 2]!.matchAll(/DefaultValue="([^"]*)"/g)
    for (const match of strings('short')) expect(match[1]!.length).toBeLessThanOrEqual(125)
    for (const match of strings('long')) expect(match[1]!.length).toBeLessThanOrEqual(250)
    for (const match of all(/DefaultValue="([a-z]+:\/\/[^"]*)"/g)) {
      expect(match[1]).toMatch(/^https:/)
      expect(match[1]!.length).toBeLessThanOrEqual(2048)
    }
  })
  it('names icons that exist in their true size', () => {
    const icons = all(/https:\/\/localhost:3000\/assets\/icon-(\d+)\.png/g).map((match) => Number(match[1]))
    expect(icons).toEqual(expect.arrayContaining([16, 32, 64, 80]))
    for (const size of [...new Set([...icons, 20, 24, 40, 48])]) expect(pngSize(`taskpane/assets/icon-${size}.png`)).toEqual([size, size])
  })
})
