/**
 * How fast a pile's past is judged again: `node tests/load/replay.bench.ts`. A simulated year at one-minute readings,
 * and the search for better limits over it. Processor time, also as a multiple of a bare loop timed in the same run.
 */
import { simulateCourse } from '../../shared/compost/pileModel/course.ts';
import { turnedWindrow } from '../../shared/compost/pileModel/scenarios.ts';
import { yearlyWeather } from '../../shared/compost/pileModel/weather.ts';
import { replayPast } from '../../shared/rules/replay.ts';
import type { Past } from '../../shared/rules/replayPast.ts';
import { suggestLimits } from '../../shared/rules/suggestLimits.ts';
import { placed, startMs, testFacts, wrote } from '../../shared/rules/testing/testPile.ts';
import { seeded } from '../../shared/statistics/seeded.ts';

const days = 365;
const weatherAt = yearlyWeather({
  ...{ meanCelsius: 11, yearlySwingCelsius: 7, dailySwingCelsius: 4, startDayOfYear: 100 },
});

/** Seconds of processor time, first run (cold) and best of the next three. */
function secondsOf(work: () => unknown): readonly [number, number] {
  const times = [0, 1, 2, 3].map(() => {
    const before = process.cpuUsage();
    work();
    const { user, system } = process.cpuUsage(before);
    return (user + system) / 1e6;
  });
  return [times[0]!, Math.min(...times.slice(1))];
}

/** Ten million exponentials: what this machine can do. */
function bareLoop(): number {
  let sum = 0;
  for (let index = 0; index < 10_000_000; index += 1) sum += Math.exp(-(index % 7));
  return sum;
}

/** A core, a shoulder, a moisture and an air channel; `more` temperature channels beside the core and the shoulder. */
function simulatedYear(more = 0): Past {
  const { parameters, interventions } = turnedWindrow;
  const { series, length } = simulateCourse(parameters, {
    ...{ days, outputStepSeconds: 60, weatherAt, interventions },
  });
  const chance = seeded(5);
  const beside = Array.from({ length: more }, (_, index) => `beside-${index}`);
  const timesMs = Float64Array.from({ length }, (_, row) => startMs + row * 60_000 + 7_000);
  const column = (placementId: string, values: Float32Array, noise: number) => ({
    ...{ placementId, timesMs, quality: new Uint8Array(length) },
    values: Float64Array.from(values, (value) => value + noise * (chance() - 0.5)),
  });
  const channels = [
    column('core', series.coreCelsius, 0.3),
    column('shoulder', series.shoulderCelsius, 0.3),
    column('moisture', series.shoulderMoistureFraction, 0.005),
    column('air', series.airCelsius, 0.3),
    ...beside.map((id, index) =>
      column(id, index % 2 === 0 ? series.coreCelsius : series.shoulderCelsius, 0.3),
    ),
  ];
  const placedChannels = [
    placed('core'),
    placed('shoulder', 'shoulder'),
    placed('moisture', 'shoulder', 'moisture'),
    placed('air', 'air'),
    ...beside.map((id, index) => placed(id, index % 2 === 0 ? 'core' : 'shoulder')),
  ];
  const turned = interventions
    .filter(({ kind }) => kind === 'turn')
    .map(({ atSeconds }) => wrote('turned', atSeconds / 3600));
  const journal = [wrote('built', 0), ...turned];
  const facts = testFacts({ method: 'turned-windrow', channels: placedChannels, journal });
  return { facts, channels, toMs: startMs + days * 86_400_000 };
}

const past = simulatedYear();
const limits = { version: 0, overrides: {} };
const nervous = {
  version: 1,
  overrides: { 'too-hot-early-notice': { onDelayMinutes: 0, offDelayMinutes: 0, deadbandCelsius: 0.5 } },
};
const [, bare] = secondsOf(bareLoop);
const report = (what: string, [cold, warm]: readonly [number, number], asked: string): void =>
  console.log(
    `${what.padEnd(52)} ${warm.toFixed(2)} s  (first run ${cold.toFixed(2)} s)  ${(warm / bare).toFixed(1)} x bare loop  ${asked}`,
  );

const { alarms, texts } = replayPast(past, limits);
console.log(`bare loop of ten million exponentials ${bare.toFixed(2)} s`);
console.log(
  `a pile-year at one-minute readings, four channels: ${alarms.length} alarms, ${texts.length} texts`,
);
report(
  'replay of a pile-year, four channels',
  secondsOf(() => replayPast(past, limits)),
  'asked: below 1 s',
);
const wide = simulatedYear(4);
report(
  'replay of a pile-year, eight channels',
  secondsOf(() => replayPast(wide, limits)),
  'asked: below 1 s',
);
report(
  'search for better limits of one condition',
  secondsOf(() =>
    suggestLimits(past, nervous, 'too-hot-early-notice', { temperatureUnit: 'C', textsFrom: 'low' }),
  ),
  '',
);
