import { z } from 'zod';
import { type CommonParameters, type Condition, eraseParameters } from '../condition.ts';
import { commonDefaults, commonShape, number } from '../parameters.ts';
import { entry } from '../pileEvidence.ts';
import { priorityOf } from '../priorityOf.ts';
import {
  isHotPlace,
  type ProbeChannel,
  type ProbePlace,
  type ProbeView,
  placesInDoubt,
  placesNow,
} from '../probeWindow.ts';

interface BadValuesParameters extends CommonParameters {
  readonly inARow: number;
  readonly hotCelsius: number;
}

const condition: Condition<ProbeView, BadValuesParameters> = {
  id: 'probe-bad-values',
  name: 'Probe sends bad values',
  subject: 'probe',
  parameters: z.object({
    ...commonShape,
    inARow: number('readings', 1, 20, 'So many bad readings in a row before anybody hears of it.'),
    hotCelsius: number('C', 20, 80, 'Lost at or above this core temperature it is pressing.'),
  }),
  defaults: () => ({
    ...commonDefaults,
    onDelayMinutes: 20,
    offDelayMinutes: 30,
    minimumMinutesBetweenTexts: 360,
    inARow: 3,
    hotCelsius: 40,
  }),
  source: 'three in a row, so that a single one is no alarm: common practice, no source',
  latching: false,
  truth: (view, { hotCelsius, inARow }, wasActive) =>
    badPlaces(view, hotCelsius, wasActive ? 1 : inARow).length > 0 ? 'true' : 'false',
  findings: (view, { hotCelsius }) => ({
    evidence: badPlaces(view, hotCelsius, 1).flatMap((place) => evidenceOf(view, place)),
    measured: null,
  }),
  suppression: () => null,
  priority: (view, { hotCelsius }) =>
    badPlaces(view, hotCelsius, 1).some((place) => isHotPlace(view, place, hotCelsius))
      ? priorityOf('soon', 'batch', 'seen')
      : priorityOf('later', 'quality', 'seen'),
  words: () => ({
    what: 'probe sends bad values',
    firstAction: 'Read the pile by hand now, then check plug, cable, probe.',
    cautions: [
      'The last good reading was real: do not take the pile for cool.',
      'Metal stems above 60 C burn.',
    ],
  }),
};

/**
 * Placed channels whose latest readings, so many in a row, have all been bad, and hot ones that as often moved faster
 * than a pile can: such a reading is kept from the pile's own alarms, so somebody must look. One alone is a spark on a
 * wire or a sensor waking up, and the next one tells. A wrong clock has its own alarm.
 */
function badPlaces(view: ProbeView, hotCelsius: number, inARow: number): ProbePlace[] {
  const jumping = placesInDoubt(view, ['impossible-rate', 'outlier']).filter(
    (place) => isHotPlace(view, place, hotCelsius) && view.channels.get(place.channel)!.doubtInARow >= inARow,
  );
  if (![...view.channels.values()].some((channel) => isBad(channel, inARow))) return jumping;
  return placesNow(view).filter((place) => {
    const channel = view.channels.get(place.channel);
    return jumping.includes(place) || (channel !== undefined && isBad(channel, inARow));
  });
}

function isBad({ badInARow, badReason }: ProbeChannel, inARow: number): boolean {
  return badInARow >= inARow && badReason !== 'future-time';
}

function evidenceOf(view: ProbeView, place: ProbePlace) {
  const channel = view.channels.get(place.channel)!;
  const sinceMs = channel.badSinceMs ?? channel.doubtSinceMs!;
  const lastGood = Number.isNaN(channel.lastGood) ? null : channel.lastGood;
  const unit = place.quantity === 'temperature' ? 'C' : '';
  return [
    ...entry(`${place.position}: bad for`, (view.nowMs - sinceMs) / 60_000, 'min'),
    {
      label: `${place.position}: reason`,
      value: channel.badReason ?? channel.doubtReason ?? 'bad',
      unit: '',
    },
    ...entry(`${place.position}: last good value`, lastGood, unit),
    ...entry(
      `${place.position}: doubtful value`,
      channel.doubtReason === null ? null : channel.doubtful,
      unit,
    ),
  ];
}

/** A placed channel sends nothing but bad values, or a hot one values no pile can make. */
export const probeBadValues = eraseParameters(condition);
