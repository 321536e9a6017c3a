// Made by scripts/make-index.mjs from the folder listing; run `npm run index` after adding a file.
import type { AnyCalculation } from '../calc.js'
import { catchmentYield } from './rain/catchmentYield.js'
import { drySpell } from './rain/drySpell.js'
import { peakFlow } from './rain/peakFlow.js'
import { roofRunoff } from './rain/roofRunoff.js'
import { sequentPeak } from './rain/sequentPeak.js'
import { storageNeeded } from './rain/storageNeeded.js'
import { supplyReliability } from './rain/supplyReliability.js'
import { tankVolume } from './rain/tankVolume.js'
import { waterBalance } from './rain/waterBalance.js'
import { darcyLoss } from './pipe/darcyLoss.js'
import { drainCapacity } from './pipe/drainCapacity.js'
import { fittingLoss } from './pipe/fittingLoss.js'
import { flowVelocity } from './pipe/flowVelocity.js'
import { frictionLoss } from './pipe/frictionLoss.js'
import { leaderCapacity } from './pipe/leaderCapacity.js'
import { levelingTime } from './pipe/levelingTime.js'
import { overflowHead } from './pipe/overflowHead.js'
import { pipeBore } from './pipe/pipeBore.js'
import { pumpDuty } from './pipe/pumpDuty.js'
import { surgePressure } from './pipe/surgePressure.js'
import { tankDrawdown } from './pipe/tankDrawdown.js'
import { totalHead } from './pipe/totalHead.js'
import { waterPower } from './pipe/waterPower.js'
import { ampacity } from './power/ampacity.js'
import { breakerSize } from './power/breakerSize.js'
import { conductorResistance } from './power/conductorResistance.js'
import { conductorSize } from './power/conductorSize.js'
import { conduitFill } from './power/conduitFill.js'
import { coverDepth } from './power/coverDepth.js'
import { groundSize } from './power/groundSize.js'
import { motorCurrent } from './power/motorCurrent.js'
import { voltageDrop } from './power/voltageDrop.js'
import { digVolume } from './earth/digVolume.js'
import { looseVolume } from './earth/looseVolume.js'
import { stoneBedding } from './earth/stoneBedding.js'
import { stoneWeight } from './earth/stoneWeight.js'
import { trenchBedding } from './earth/trenchBedding.js'
import { coverForce } from './tank/coverForce.js'
import { slingTension } from './tank/slingTension.js'
import { tankWeight } from './tank/tankWeight.js'
import { thermalChange } from './tank/thermalChange.js'
import { upliftSafety } from './tank/upliftSafety.js'
import { vacuumLoss } from './tank/vacuumLoss.js'
import { orderQuantity } from './estimate/orderQuantity.js'

export const calculations: readonly AnyCalculation[] = [
  catchmentYield,
  drySpell,
  peakFlow,
  roofRunoff,
  sequentPeak,
  storageNeeded,
  supplyReliability,
  tankVolume,
  waterBalance,
  darcyLoss,
  drainCapacity,
  fittingLoss,
  flowVelocity,
  frictionLoss,
  leaderCapacity,
  levelingTime,
  overflowHead,
  pipeBore,
  pumpDuty,
  surgePressure,
  tankDrawdown,
  totalHead,
  waterPower,
  ampacity,
  breakerSize,
  conductorResistance,
  conductorSize,
  conduitFill,
  coverDepth,
  groundSize,
  motorCurrent,
  voltageDrop,
  digVolume,
  looseVolume,
  stoneBedding,
  stoneWeight,
  trenchBedding,
  coverForce,
  slingTension,
  tankWeight,
  thermalChange,
  upliftSafety,
  vacuumLoss,
  orderQuantity,
]

export {
  catchmentYield,
  drySpell,
  peakFlow,
  roofRunoff,
  sequentPeak,
  storageNeeded,
  supplyReliability,
  tankVolume,
  waterBalance,
  darcyLoss,
  drainCapacity,
  fittingLoss,
  flowVelocity,
  frictionLoss,
  leaderCapacity,
  levelingTime,
  overflowHead,
  pipeBore,
  pumpDuty,
  surgePressure,
  tankDrawdown,
  totalHead,
  waterPower,
  ampacity,
  breakerSize,
  conductorResistance,
  conductorSize,
  conduitFill,
  coverDepth,
  groundSize,
  motorCurrent,
  voltageDrop,
  digVolume,
  looseVolume,
  stoneBedding,
  stoneWeight,
  trenchBedding,
  coverForce,
  slingTension,
  tankWeight,
  thermalChange,
  upliftSafety,
  vacuumLoss,
  orderQuantity,
}
