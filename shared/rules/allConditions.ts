import type { Condition } from './condition.ts';
import { dryingOutMeasured } from './conditions/dryingOutMeasured.ts';
import { probeBadValues } from './conditions/probeBadValues.ts';
import { probeSilent } from './conditions/probeSilent.ts';
import { stalled } from './conditions/stalled.ts';
import { tooColdNeverHeated } from './conditions/tooColdNeverHeated.ts';
import { tooHotCeiling } from './conditions/tooHotCeiling.ts';
import { tooHotEarlyNotice } from './conditions/tooHotEarlyNotice.ts';
import { tooHotFireDanger } from './conditions/tooHotFireDanger.ts';
import { yardSilent } from './conditions/yardSilent.ts';
import type { PileView } from './pileView.ts';
import type { ProbeView } from './probeWindow.ts';
import type { YardView } from './yardView.ts';

/** Judged in this order at every instant: a condition may look at whether an earlier one is active. */
export const pileConditions: readonly Condition<PileView>[] = [
  tooHotFireDanger,
  tooHotCeiling,
  tooHotEarlyNotice,
  tooColdNeverHeated,
  dryingOutMeasured,
  stalled,
];

export const probeConditions: readonly Condition<ProbeView>[] = [probeSilent, probeBadValues];

export const yardConditions: readonly Condition<YardView>[] = [yardSilent];

/** What lists and settings screens need of every condition, whatever it judges. */
export const allConditions: readonly Pick<
  Condition<never>,
  'id' | 'name' | 'subject' | 'parameters' | 'defaults' | 'source' | 'latching'
>[] = [...pileConditions, ...probeConditions, ...yardConditions];
