import type { Ledger, PileState } from './state.ts';
import { total, totalDryKg } from './state.ts';

/** What entered less what left less what stayed; zero but for rounding. `scale` is what to judge it against. */
export interface BalanceGap {
  readonly gap: number;
  readonly scale: number;
}

function gapOf(stayed: number, flows: readonly number[]): BalanceGap {
  const entered = flows.reduce((sum, flow) => sum + flow, 0);
  const scale = flows.reduce((sum, flow) => sum + Math.abs(flow), Math.abs(stayed));
  return { gap: entered - stayed, scale };
}

function energyFlows(ledger: Ledger): number[] {
  return [
    ledger.heatReleased,
    ledger.broughtByWater,
    -ledger.carriedByGas,
    -ledger.lostWithAir,
    -ledger.lostThroughSurface,
    -ledger.lostToGround,
    -ledger.lostToChannels,
    -ledger.lostByTurning,
  ];
}

/** Closes the books between two states of the same pile: energy (J), water (kg) and dry matter (kg). */
export function balanceGaps(
  before: PileState,
  after: PileState,
): { energy: BalanceGap; water: BalanceGap; dry: BalanceGap } {
  const [from, to] = [before.ledger, after.ledger];
  const earlier = energyFlows(from);
  const energy = energyFlows(to).map((flow, index) => flow - earlier[index]!);
  const water = [
    to.madeWaterKg - from.madeWaterKg,
    to.addedWaterKg - from.addedWaterKg,
    from.vapourKg - to.vapourKg,
    from.drainedKg - to.drainedKg,
  ];
  const dry = [to.addedDryKg - from.addedDryKg, from.oxidisedKg - to.oxidisedKg];
  return {
    energy: gapOf(total(after.energyJoules) - total(before.energyJoules), energy),
    water: gapOf(total(after.waterKg) - total(before.waterKg), water),
    dry: gapOf(totalDryKg(after) - totalDryKg(before), dry),
  };
}
