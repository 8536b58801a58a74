import { z } from 'zod';
import { isBeyondLow } from '../../alarms/deadband.ts';
import type { Truth } from '../../alarms/timing.ts';
import { type CommonParameters, type Condition, eraseParameters } from '../condition.ts';
import { commonDefaults, commonShape, number } from '../parameters.ts';
import { entry } from '../pileEvidence.ts';
import { priorityOf } from '../priorityOf.ts';
import type { ServiceFacts } from '../serviceFacts.ts';
import type { YardView } from '../yardView.ts';

interface DiskParameters extends CommonParameters {
  readonly limitFraction: number;
  readonly pressingFraction: number;
  readonly plentyGigabytes: number;
  readonly spaceFraction: number;
}

const deadbandFraction = 0.02;

const condition: Condition<YardView, DiskParameters> = {
  id: 'service-disk-low',
  name: 'Disk low',
  subject: 'yard',
  parameters: z.object({
    ...commonShape,
    limitFraction: number('fraction', 0.01, 0.5, 'Free share of the disk below which it is low.'),
    pressingFraction: number('fraction', 0.005, 0.3, 'Free share below which it may be full any day.'),
    plentyGigabytes: number('GB', 0.1, 1000, 'Never low while this much is free, however large the disk.'),
    spaceFraction: number(
      'fraction',
      0.01,
      0.5,
      'Free share below which the space given to readings that InfluxDB has not got is low.',
    ),
  }),
  defaults: () => ({
    ...commonDefaults,
    onDelayMinutes: 15,
    offDelayMinutes: 15,
    minimumMinutesBetweenTexts: 1440,
    limitFraction: 0.1,
    pressingFraction: 0.03,
    plentyGigabytes: 20,
    spaceFraction: 0.2,
  }),
  source: 'common practice, no source',
  latching: false,
  truth: diskLow,
  findings: ({ services }, { limitFraction }) => ({
    evidence: [
      ...entry('free', percent(services.diskFreeFraction), '%'),
      ...entry('free', services.diskFreeBytes === null ? null : services.diskFreeBytes / 1e9, 'GB'),
      ...entry('limit', limitFraction * 100, '%'),
      ...entry('space for readings used', percent(services.localSpaceUsedFraction), '%'),
    ],
    measured: null,
  }),
  suppression: () => null,
  priority: ({ services }, { pressingFraction }) =>
    priorityOf((services.diskFreeFraction ?? 1) < pressingFraction ? 'now' : 'soon', 'quality', 'seen'),
  words: ({ services }, parameters) => (isSpaceLow(services, parameters, true) ? spaceWords : diskWords),
};

const diskWords = {
  what: 'disk nearly full',
  firstAction: 'Free space on the disk, or keep raw readings for fewer days.',
  cautions: ['A full disk takes no readings and judges nothing.'],
};
const spaceWords = {
  what: 'space for readings nearly full',
  firstAction: 'See why InfluxDB takes no readings, or give them more space.',
  cautions: ['Nothing is removed that InfluxDB has not got.'],
};

const percent = (fraction: number | null) => (fraction === null ? null : fraction * 100);

function diskLow({ services }: YardView, parameters: DiskParameters, wasActive: boolean): Truth {
  const { diskFreeFraction, diskFreeBytes } = services;
  if (isSpaceLow(services, parameters, wasActive)) return 'true';
  if (diskFreeFraction === null) return 'unknown';
  const isPlenty = diskFreeBytes !== null && diskFreeBytes >= parameters.plentyGigabytes * 1e9;
  const isLow = isBeyondLow(diskFreeFraction, parameters.limitFraction, deadbandFraction, wasActive);
  return isLow && !isPlenty ? 'true' : 'false';
}

/** Long before it is used up: what InfluxDB has was let go of by then, so only a person can help. */
function isSpaceLow(
  { localSpaceUsedFraction }: ServiceFacts,
  { spaceFraction }: DiskParameters,
  wasActive: boolean,
): boolean {
  if (localSpaceUsedFraction === null) return false;
  return isBeyondLow(1 - localSpaceUsedFraction, spaceFraction, deadbandFraction, wasActive);
}

/** Little room is left where readings and records are kept. */
export const serviceDiskLow = eraseParameters(condition);
