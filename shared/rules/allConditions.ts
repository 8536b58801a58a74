import type { Condition } from './condition.ts';
import { dryingOutEstimated } from './conditions/dryingOutEstimated.ts';
import { dryingOutMeasured } from './conditions/dryingOutMeasured.ts';
import { probeBadValues } from './conditions/probeBadValues.ts';
import { probeBatteryLow } from './conditions/probeBatteryLow.ts';
import { probeCalibrationDue } from './conditions/probeCalibrationDue.ts';
import { probeClockWrong } from './conditions/probeClockWrong.ts';
import { probeDisagreeing } from './conditions/probeDisagreeing.ts';
import { probeSilent } from './conditions/probeSilent.ts';
import { probeStuck } from './conditions/probeStuck.ts';
import { serviceBrokerAway } from './conditions/serviceBrokerAway.ts';
import { serviceClockStep } from './conditions/serviceClockStep.ts';
import { serviceDatabaseAway } from './conditions/serviceDatabaseAway.ts';
import { serviceDiskLow } from './conditions/serviceDiskLow.ts';
import { serviceMessagesNotLeaving } from './conditions/serviceMessagesNotLeaving.ts';
import { stalled } from './conditions/stalled.ts';
import { tooColdFellShort } from './conditions/tooColdFellShort.ts';
import { tooColdNeverHeated } from './conditions/tooColdNeverHeated.ts';
import { tooColdRange } from './conditions/tooColdRange.ts';
import { tooHotCeiling } from './conditions/tooHotCeiling.ts';
import { tooHotEarlyNotice } from './conditions/tooHotEarlyNotice.ts';
import { tooHotFireDanger } from './conditions/tooHotFireDanger.ts';
import { tooHotHeadingThere } from './conditions/tooHotHeadingThere.ts';
import { tooHotTooLong } from './conditions/tooHotTooLong.ts';
import { tooWet } from './conditions/tooWet.ts';
import { yardSilent } from './conditions/yardSilent.ts';
import type { PileView } from './pileView.ts';
import type { ProbeView } from './probeWindow.ts';
import type { YardView } from './yardView.ts';

/** Judged in this order at every instant: a condition may look at whether an earlier one is active. */
export const pileConditions: readonly Condition<PileView>[] = [
  tooHotFireDanger,
  tooHotCeiling,
  tooHotHeadingThere,
  tooHotEarlyNotice,
  tooHotTooLong,
  tooWet,
  tooColdNeverHeated,
  tooColdFellShort,
  tooColdRange,
  dryingOutMeasured,
  dryingOutEstimated,
  stalled,
];

export const probeConditions: readonly Condition<ProbeView>[] = [
  probeSilent,
  probeBadValues,
  probeStuck,
  probeDisagreeing,
  probeBatteryLow,
  probeClockWrong,
  probeCalibrationDue,
];

export const yardConditions: readonly Condition<YardView>[] = [
  yardSilent,
  serviceBrokerAway,
  serviceDatabaseAway,
  serviceDiskLow,
  serviceMessagesNotLeaving,
  serviceClockStep,
];

/** What lists and settings screens need of every condition, whatever it judges. */
export const allConditions: readonly Pick<
  Condition<never>,
  'id' | 'name' | 'subject' | 'parameters' | 'defaults' | 'source' | 'latching'
>[] = [...pileConditions, ...probeConditions, ...yardConditions];
