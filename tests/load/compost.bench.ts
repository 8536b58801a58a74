/**
 * How fast the compost science runs: `node tests/load/compost.bench.ts`. Each time is also given as a multiple of a
 * bare loop timed in the same run, so that figures from different machines can be compared.
 */
import { fitPile } from '../../shared/compost/forecast/fitPile.ts';
import { forecastPile, usualRequest } from '../../shared/compost/forecast/forecastPile.ts';
import { simulateCourse } from '../../shared/compost/pileModel/course.ts';
import { freshRichCage } from '../../shared/compost/pileModel/scenarios.ts';
import { yearlyWeather } from '../../shared/compost/pileModel/weather.ts';
import { seeded } from '../../shared/statistics/seeded.ts';
import { scoreForecasts, scoreTable } from '../helpers/forecastScore.ts';

const weatherAt = yearlyWeather({
  meanCelsius: 11,
  yearlySwingCelsius: 7,
  dailySwingCelsius: 4,
  startDayOfYear: 120,
});

/** Best of three, seconds: the machine's other work only ever makes a run slower. */
function secondsOf(work: () => unknown): number {
  const times = [1, 2, 3].map(() => {
    const start = performance.now();
    work();
    return (performance.now() - start) / 1000;
  });
  return Math.min(...times);
}

/** Ten million exponentials: the arithmetic the model is made of, without the model. */
function bareLoop(): number {
  let sum = 0;
  for (let index = 0; index < 10_000_000; index += 1) sum += Math.exp(-(index % 7));
  return sum;
}

const bare = secondsOf(bareLoop);

function report(what: string, seconds: number, limit: number): void {
  const ratio = (seconds / bare).toFixed(1);
  console.log(
    `${what.padEnd(48)} ${seconds.toFixed(3)} s   ${ratio} x bare loop   (asked: below ${limit} s)`,
  );
}

const { parameters, interventions } = freshRichCage;
const simulate = (days: number, outputStepSeconds: number) =>
  simulateCourse(parameters, { days, outputStepSeconds, weatherAt, interventions });
const month = simulate(30, 300).series;
const samples = (values: Float32Array) =>
  Array.from(values, (value, row) => ({ timeMs: row * 300_000, value }));
const record = {
  core: samples(month.coreCelsius),
  air: samples(month.airCelsius),
  meanAirCelsius: 12,
  disturbedMs: [],
  untilMs: 30 * 86_400_000,
};
const fit = fitPile(record);

console.log(`bare loop of ten million exponentials              ${bare.toFixed(3)} s`);
report(
  'a year of one pile at one-minute rows',
  secondsOf(() => simulate(365, 60)),
  1,
);
report(
  'fit of 30 days of 5-minute readings',
  secondsOf(() => fitPile(record)),
  0.5,
);
report(
  'forecast of 60 days, 200 futures',
  secondsOf(() => forecastPile(fit, { ...usualRequest, random: seeded(1) })),
  1,
);

const piles = Number(process.argv[2] ?? 20);
console.log(`\n${piles} simulated piles with parameters drawn apart`);
console.log(
  scoreTable(scoreForecasts(seeded(99), { piles, fromDays: [3, 5, 10, 20], horizonDays: 40, draws: 120 })),
);
