import type { Logger } from 'pino';
import type { Clock } from '../clock.ts';
import type { Records } from '../records/port.ts';
import type { DemoSensor } from './demoYard.ts';
import { type FurnishedPile, type FurnishedYard, journalOf } from './furnishYard.ts';
import { faultyValue } from './probeFaults.ts';
import { connectProbe, type ProbeMeasurement, type ProbePublisher } from './probePublisher.ts';
import { seaWeatherAt } from './seaWeather.ts';
import { createSimulatedPile, type PileMoment, type SimulatedPile } from './simulatedPile.ts';

export interface SimulatorOptions {
  readonly yard: FurnishedYard;
  readonly records: Records;
  readonly brokerUrl: string;
  readonly clock: Clock;
  /** The demo's start; faults count their hours from it. */
  readonly startMs: number;
  readonly logger: Logger;
  /** Told how far the sending of past readings has come, 0..1. */
  readonly onProgress?: (share: number) => void;
}

const hourMs = 3_600_000;
const dayMs = 24 * hourMs;
/** Probes measure this often in simulated time. */
const intervalMs = 5 * 60_000;
/** Older past is sent hourly, the last days finer: a probe with a small memory would do the same. */
const finePastMs = 3 * dayMs;
const finePastStepMs = 15 * 60_000;
/** Readings of the past in one pack. */
const pastPackTimes = 48;

/** What publishes: one pile's probe, or the yard's air. */
interface Publisher {
  readonly probe: ProbePublisher;
  readonly firstMs: number;
  readonly measure: (timeMs: number) => ProbeMeasurement[];
}

/** Runs the demo yard's piles and sends what their probes would, over MQTT: first the past, then live. */
export async function startSimulator(options: SimulatorOptions): Promise<{ stop(): Promise<void> }> {
  const publishers = await Promise.all([
    ...options.yard.piles.map((pile) => pileProbe(pile, options)),
    airProbe(options),
  ]);
  let done = 0;
  await Promise.all(
    publishers.map(async (publisher) => {
      await sendPast(publisher, options.startMs);
      done += 1;
      options.onProgress?.(done / publishers.length);
    }),
  );
  const live = runLive(publishers, options);
  return {
    async stop() {
      await live.stop();
      await Promise.all(publishers.map(({ probe }) => probe.stop()));
    },
  };
}

async function pileProbe(furnished: FurnishedPile, options: SimulatorOptions): Promise<Publisher> {
  const { pile, probeId, secret, builtMs } = furnished;
  const format = pile.method === 'static-cage' ? 'cbor' : 'json';
  const probe = await connectProbe({
    brokerUrl: options.brokerUrl,
    yardId: options.yard.yardId,
    probeId,
    secret,
    format,
  });
  const simulated = createSimulatedPile(pile.scenario, builtMs, (seconds) =>
    weatherFrom(options.startMs, builtMs + seconds * 1000),
  );
  return {
    probe,
    firstMs: builtMs,
    measure: (timeMs) => measurePile(furnished, simulated, options.startMs, timeMs),
  };
}

async function airProbe(options: SimulatorOptions): Promise<Publisher> {
  const { probeId, secret } = options.yard.air;
  const probe = await connectProbe({
    brokerUrl: options.brokerUrl,
    yardId: options.yard.yardId,
    probeId,
    secret,
    format: 'json',
  });
  const measure = (timeMs: number): ProbeMeasurement[] => {
    const weather = weatherFrom(options.startMs, timeMs);
    return [
      { channel: 'air', unit: 'Cel', value: asSensor(weather.airCelsius, timeMs, 99), timeMs },
      {
        channel: 'humidity',
        unit: '%RH',
        value: Math.round(weather.relativeHumidityFraction * 1000) / 10,
        timeMs,
      },
    ];
  };
  return { probe, firstMs: options.startMs - 40 * dayMs, measure };
}

/** The demo always plays in the same autumn week, whatever the date, so that its stories come out as told. */
function weatherFrom(startMs: number, timeMs: number) {
  const playedFrom = Date.UTC(2026, 9, 15) + (startMs % dayMs);
  return seaWeatherAt(playedFrom + (timeMs - startMs));
}

function measurePile(
  furnished: FurnishedPile,
  simulated: SimulatedPile,
  startMs: number,
  timeMs: number,
): ProbeMeasurement[] {
  const moment = simulated.advanceTo(timeMs);
  const hours = (timeMs - startMs) / hourMs;
  const faults = furnished.pile.faults ?? [];
  const sent: ProbeMeasurement[] = [];
  for (const [index, sensor] of furnished.pile.sensors.entries()) {
    const value = faultyValue(
      faults,
      sensor.channel,
      sensorValue(sensor, moment, timeMs, index),
      hours,
      intervalMs / hourMs,
    );
    if (value !== null)
      sent.push({
        channel: sensor.channel,
        unit: sensor.quantity === 'moisture' ? '/' : 'Cel',
        value,
        timeMs,
      });
  }
  const drained = ((timeMs - furnished.builtMs) / dayMs) * 0.35;
  if (sent.length > 0)
    sent.push({ channel: 'battery', unit: '%EL', value: Math.max(40, Math.round(98 - drained)), timeMs });
  return sent;
}

function sensorValue(sensor: DemoSensor, moment: PileMoment, timeMs: number, index: number): number {
  if (sensor.quantity === 'moisture') return Math.round(moment.moistureFraction * 500) / 500;
  return asSensor(moment.celsiusAt[sensor.position] + (sensor.offset ?? 0), timeMs, index);
}

/** A digital thermometer's steps of 1/16 C with a little unrest of its own. */
function asSensor(celsius: number, timeMs: number, salt: number): number {
  const unrest =
    Math.sin(timeMs / 1_234_567 + salt * 7.3) * 0.08 + Math.sin(timeMs / 98_765 + salt * 3.1) * 0.06;
  return Math.round((celsius + unrest) * 16) / 16;
}

/** Times at which past readings are sent: hourly long ago, every quarter of an hour lately. */
function pastTimes(firstMs: number, startMs: number): number[] {
  const times: number[] = [];
  for (
    let timeMs = firstMs;
    timeMs < startMs;
    timeMs += startMs - timeMs > finePastMs ? hourMs : finePastStepMs
  )
    times.push(timeMs);
  return times;
}

async function sendPast({ probe, firstMs, measure }: Publisher, startMs: number): Promise<void> {
  const times = pastTimes(firstMs, startMs);
  for (let from = 0; from < times.length; from += pastPackTimes) {
    await probe.publish(times.slice(from, from + pastPackTimes).flatMap(measure));
  }
}

function runLive(publishers: readonly Publisher[], options: SimulatorOptions): { stop(): Promise<void> } {
  let nextMs = Math.ceil(options.startMs / intervalMs) * intervalMs;
  let running = Promise.resolve();
  let busy = false;
  const timer = setInterval(() => {
    if (busy || options.clock.nowMs() < nextMs) return;
    busy = true;
    running = sendDue().catch((error: unknown) =>
      options.logger.warn({ error }, 'the simulator could not send'),
    );
    void running.finally(() => {
      busy = false;
    });
  }, 50);

  async function sendDue(): Promise<void> {
    const times: number[] = [];
    for (; nextMs <= options.clock.nowMs(); nextMs += intervalMs) times.push(nextMs);
    await writeDone(options, times[0]! - intervalMs, times.at(-1)!);
    await Promise.all(publishers.map(({ probe, measure }) => probe.publish(times.flatMap(measure))));
  }

  return {
    async stop() {
      clearInterval(timer);
      await running;
    },
  };
}

/** Writes into the journal what the scenarios' people did since the last look. */
async function writeDone({ yard, records }: SimulatorOptions, afterMs: number, toMs: number): Promise<void> {
  for (const { pile, pileId, builtMs } of yard.piles) {
    for (const action of pile.scenario.interventions) {
      const timeMs = Math.round(builtMs + action.atSeconds * 1000);
      if (timeMs <= afterMs || timeMs > toMs) continue;
      await records.journal.add({
        pileId,
        timeMs,
        note: '',
        by: null,
        recordedAtMs: toMs,
        ...journalOf(action),
      });
    }
  }
}
