import { describe, expect, test } from 'vitest';
import { fitPile } from '../../shared/compost/forecast/fitPile.ts';
import { forecastPile, usualRequest } from '../../shared/compost/forecast/forecastPile.ts';
import { seeded } from '../../shared/statistics/seeded.ts';
import { hasOpenData, readOpenTable, samplesOf, timeMsOf } from '../helpers/openData.ts';

const pileFile = 'broiler_litter_pile_2023_temperature_hourly.csv';
const weatherFile = 'foulum_2023_weather_hourly.csv';
const there = hasOpenData(pileFile) && hasOpenData(weatherFile);
const hourMs = 3_600_000;
const builtMs = timeMsOf('2023-08-29T10:00:00');
/** Hour from which each hot probe is dead (data set notes); what it says later is not the pile. */
const diesMs = {
  T12: timeMsOf('2023-09-22T23:00:00'),
  T22: timeMsOf('2023-09-09T04:00:00'),
  T32: timeMsOf('2023-09-21T10:00:00'),
};

/** Fits the first five days of a probe and scores the forecast against every hour until the probe died. */
function scoreProbe(name: keyof typeof diesMs) {
  const core = samplesOf(readOpenTable(pileFile), 'time_local', name).filter(
    ({ timeMs }) => timeMs < diesMs[name],
  );
  const untilMs = builtMs + 5 * 24 * hourMs;
  const fit = fitPile({
    core,
    air: samplesOf(readOpenTable(weatherFile), 'time_local', 'TempAir'),
    meanAirCelsius: 15,
    disturbedMs: [],
    untilMs,
  });
  const { path, daysAbove55 } = forecastPile(fit, { ...usualRequest, horizonDays: 20, random: seeded(5) });
  const later = core.flatMap(({ timeMs, value }) => {
    const row = (timeMs - fit.timeMs) / hourMs;
    return row >= 0 && row < path.low.length ? [{ row, value }] : [];
  });
  const covered = later.filter(({ row, value }) => value >= path.low[row]! && value <= path.high[row]!);
  const error =
    later.reduce((sum, { row, value }) => sum + Math.abs(value - path.middle[row]!), 0) / later.length;
  const above = later.filter(({ value }) => value >= 55).length / 24;
  return { hours: later.length, coverage: covered.length / later.length, error, above, daysAbove55 };
}

describe.skipIf(!there)('litter pile (Kamp & Feilberg, CC-BY-4.0), forecast from day 5', () => {
  test.each(['T12', 'T22', 'T32'] as const)('%s: what came against what was said', (name) => {
    const score = scoreProbe(name);
    const said = Object.values(score.daysAbove55).map((days) => days.toFixed(1));
    console.log(
      `${name}: mean error ${score.error.toFixed(1)} C over ${score.hours} h, 80 % band covered ${score.coverage.toFixed(2)}; ` +
        `days above 55 C ${score.above.toFixed(1)} until the probe died, said ${said.join(' / ')}`,
    );
    expect(score.hours).toBeGreaterThan(120);
    expect(score.error).toBeLessThan(8);
    expect(score.coverage).toBeGreaterThan(0.6);
  });
});
