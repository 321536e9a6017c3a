/** A second opinion from the EPANET engine of the U.S. EPA (npm package epanet-js): friction in a pipe run, same formula. */
import { Project, Workspace } from 'epanet-js'
import { describe, expect, it } from 'vitest'
import { frictionLoss } from '../../src/index.js'

/** One reservoir, one pipe, one demand: the engine solves for the head at the far end. */
async function epanetLoss(flow_gpm: number, length_ft: number, bore_in: number, smoothness: number): Promise<number> {
  const workspace = new Workspace()
  await workspace.loadModule()
  const network = `[TITLE]
one pipe
[JUNCTIONS]
J 0 ${flow_gpm}
[RESERVOIRS]
R 1000
[PIPES]
P R J ${length_ft} ${bore_in} ${smoothness} 0 Open
[OPTIONS]
UNITS GPM
HEADLOSS H-W
ACCURACY 0.00000001
[TIMES]
DURATION 0
[END]
`
  workspace.writeFile('net.inp', network)
  const project = new Project(workspace)
  project.open('net.inp', 'report.rpt', 'out.bin')
  project.openH()
  project.initH(10)
  project.runH()
  const head = project.getNodeValue(project.getNodeIndex('J'), 10)
  project.close()
  return 1000 - head
}

describe('FRICTIONLOSS against the EPANET engine', () => {
  it.each([
    [9, 180, 1.049, 150],
    [14, 250, 1.38, 150],
    [25, 400, 1.61, 140],
    [50, 1000, 2.067, 150],
    [100, 500, 3.068, 130],
    [300, 2000, 6.065, 150],
  ])('%d gpm, %d ft, %d in, C %d', async (flow_gpm, length_ft, bore_in, smoothness) => {
    const theirs = await epanetLoss(flow_gpm, length_ft, bore_in, smoothness)
    // The engine rounds its conversion of gpm to cfs (448.831) and stores figures in single precision.
    expect(Math.abs((frictionLoss({ flow_gpm, length_ft, bore_in, smoothness }) as number) / theirs - 1)).toBeLessThan(2e-4)
  })
})
