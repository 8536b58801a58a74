import { handledSince } from '../../../shared/readings/handling.ts';
import { judgeReading } from '../../../shared/readings/quality.ts';
import type { Reading } from '../../../shared/readings/reading.ts';
import { defaultSensors } from '../../../shared/readings/sensorDescription.ts';
import type { PileFacts } from '../../../shared/rules/pileWindow.ts';
import type { ProbeFacts, ProbePlace, ProbeReading } from '../../../shared/rules/probeWindow.ts';
import { flagOfReason, type Past } from '../../../shared/rules/replayPast.ts';
import type { JournalEntry, JournalKind } from '../../../shared/yard/journal.ts';
import type { Placement } from '../../../shared/yard/yard.ts';
import { drawFrom } from './draw.ts';
import type { Done, TrueCourse } from './playStory.ts';
import { buildOfStory } from './storyBuild.ts';
import { type RawReading, readBattery, readSensor, type StorySensor, sensorsOf } from './storySensors.ts';
import type { StorySpec } from './storySpec.ts';
import { builtMs, dayMs } from './storyTimes.ts';

export interface ToldProbe {
  readonly facts: ProbeFacts;
  readonly readings: readonly ProbeReading[];
}

/** A story as the service gets to know it: records, and readings whose quality was judged as they came in. */
export interface ToldStory {
  readonly past: Past;
  readonly probes: readonly ToldProbe[];
}

const pileId = 'story';
const yardId = 'gannet-row';
const flags = { good: 0, suspect: 1, bad: 2 } as const;

/** What the probes sent and the people wrote down, put the way ingest and the records would. */
export function tellStory(spec: StorySpec, course: TrueCourse): ToldStory {
  const draw = drawFrom(spec.seed + 1);
  const journal = journalOf(course.done);
  const sensors = sensorsOf(spec, draw);
  const raw = sensors.map((sensor) => readSensor(spec, course, sensor, draw));
  const judged = judgeAll(sensors, raw, journal);
  const facts = factsOf(spec, sensors, journal);
  const channels = sensors.map((sensor, index) => {
    const readings = judged[index]!;
    return {
      placementId: sensor.channel,
      timesMs: Float64Array.from(readings, ({ timeMs }) => timeMs),
      values: Float64Array.from(readings, ({ value }) => value),
      quality: Uint8Array.from(readings, ({ quality }) => flags[quality]),
      reasons: Uint8Array.from(readings, ({ reason }) => flagOfReason(reason)),
    };
  });
  const past = { facts, channels, toMs: builtMs + spec.days * dayMs };
  return { past, probes: probesOf(spec, sensors, judged) };
}

const journalKind: Readonly<Record<Done['action']['kind'], JournalKind>> = {
  water: 'watered',
  turn: 'turned',
  open: 'opened',
  'pull-channels': 'channels-pulled',
  add: 'added',
};

function journalOf(done: readonly Done[]): JournalEntry[] {
  const entry = (kind: JournalKind, timeMs: number, value: number | null, index: number): JournalEntry => ({
    ...{ id: `j${index}`, pileId, timeMs, kind, value, note: '', by: null, recordedAtMs: timeMs },
  });
  const logged = done.filter((one) => one.logged);
  return [
    entry('built', builtMs, null, 0),
    ...logged.map(({ action }, index) => {
      const litres = action.kind === 'water' ? Math.round(action.litres) : null;
      return entry(journalKind[action.kind], builtMs + action.atSeconds * 1000, litres, index + 1);
    }),
  ];
}

/** As much of a channel's past as judging quality looks at. */
const historyKept = 64;

/** Judges every reading in the order of time, against what had come until then, by ingest's own pure function. */
function judgeAll(
  sensors: readonly StorySensor[],
  raw: readonly RawReading[][],
  journal: readonly JournalEntry[],
): Reading[][] {
  const judged: Reading[][] = sensors.map(() => []);
  const histories: Reading[][] = sensors.map(() => []);
  const next = sensors.map(() => 0);
  for (let index = earliest(raw, next); index >= 0; index = earliest(raw, next)) {
    const { timeMs, value } = raw[index]![next[index]!]!;
    next[index]! += 1;
    const { quantity, channel, position } = sensors[index]!;
    const neighbours = sensors.flatMap((other, place) =>
      place !== index && other.quantity === quantity && (other.position === 'air') === (position === 'air')
        ? [{ channel: other.channel, history: histories[place]! }]
        : [],
    );
    const pairs = neighbours.filter((other) => isPair(sensors[index]!, other.channel, sensors));
    const verdict = judgeReading({
      candidate: { timeMs, rawValue: value, value },
      quantity,
      history: histories[index]!,
      neighbours,
      pairs,
      nowMs: timeMs,
      sensor: defaultSensors[quantity],
      handledSinceMs: handledSince(journal, timeMs),
    });
    const reading = { channel, timeMs, rawValue: value, value, ...verdict };
    judged[index]!.push(reading);
    histories[index]!.push(reading);
    if (histories[index]!.length > 2 * historyKept) histories[index]!.splice(0, historyKept);
  }
  return judged;
}

/** Another sensor at the very same spot, as ingest sees it: same position, same stated depth. */
function isPair(sensor: StorySensor, channel: string, sensors: readonly StorySensor[]): boolean {
  const other = sensors.find((one) => one.channel === channel)!;
  return (
    sensor.depthMetres !== null &&
    other.position === sensor.position &&
    other.depthMetres === sensor.depthMetres
  );
}

function earliest(raw: readonly RawReading[][], next: readonly number[]): number {
  let best = -1;
  let bestMs = Number.POSITIVE_INFINITY;
  raw.forEach((readings, index) => {
    const timeMs = readings[next[index]!]?.timeMs ?? Number.POSITIVE_INFINITY;
    if (timeMs < bestMs) {
      best = index;
      bestMs = timeMs;
    }
  });
  return best;
}

function factsOf(
  spec: StorySpec,
  sensors: readonly StorySensor[],
  journal: readonly JournalEntry[],
): PileFacts {
  const placed = sensors.map((sensor) => ({
    placement: placementOf(sensor),
    maxAgeMinutes: Math.max(60, 4 * spec.sensors.intervalMinutes),
  }));
  const pile = {
    ...{ id: pileId, yardId, name: 'Story', place: 'bay 1', method: spec.method },
    ...{ startedMs: builtMs, endedMs: null, build: buildOfStory(spec) },
  };
  return { pile, placed, journal };
}

function placementOf({ channel, quantity, position, depthMetres, probe }: StorySensor): Placement {
  return {
    ...{ id: channel, yardId, pileId: position === 'air' ? null : pileId, channel: `${probe}_${channel}` },
    ...{ quantity, position, depthMetres, fromMs: builtMs, toMs: null },
  };
}

function probesOf(
  spec: StorySpec,
  sensors: readonly StorySensor[],
  judged: readonly (readonly Reading[])[],
): ToldProbe[] {
  return (['a', 'b'] as const).flatMap((probe) => {
    const own = sensors.flatMap((sensor, index) =>
      sensor.probe === probe ? [{ sensor, readings: judged[index]! }] : [],
    );
    if (own.length === 0) return [];
    const places = own.map(({ sensor }): ProbePlace => {
      const { channel, quantity, position, fromMs, toMs } = placementOf(sensor);
      return { channel, quantity, position, fromMs, toMs, pileId, pileName: 'Story', place: 'bay 1' };
    });
    const facts: ProbeFacts = {
      ...{ probeId: probe, label: probe, expectedIntervalSeconds: null, defaultIntervalSeconds: 300, places },
    };
    const readings = own.flatMap(({ sensor, readings: list }) =>
      list.map(({ timeMs, value, quality, reason }) => ({
        ...{ channel: `${probe}_${sensor.channel}`, timeMs, value, quality, reason },
      })),
    );
    const battery = probe === 'a' ? readBattery(spec) : [];
    const withBattery = [
      ...readings,
      ...battery.map(
        ({ timeMs, value }) =>
          ({
            ...{ channel: 'a_battery', timeMs, value, quality: 'good', reason: null },
          }) as ProbeReading,
      ),
    ];
    return [{ facts, readings: withBattery.sort((a, b) => a.timeMs - b.timeMs) }];
  });
}
