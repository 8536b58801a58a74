import { describe, expect, test } from 'vitest';
import { evaluateSanitisation } from '../../shared/compost/sanitisation/evaluate.ts';
import { findRuleSet } from '../../shared/compost/sanitisation/ruleSets.ts';
import type { ZoneSeries } from '../../shared/compost/sanitisation/series.ts';
import { pileOf } from '../../shared/compost/sanitisation/testPile.ts';
import { coreCourse } from '../../shared/compost/stages/coreCourse.ts';
import { detectStages } from '../../shared/compost/stages/detectStages.ts';
import { heatUnits } from '../../shared/compost/stages/heatUnits.ts';
import { hasOpenData, readOpenTable, samplesOf, timeMsOf } from '../helpers/openData.ts';

/** Open litter pile: Kamp & Feilberg, CC-BY-4.0. Middle level T12, T22, T32 is the core; each dies while hot. */
const pileFile = 'broiler_litter_pile_2023_temperature_hourly.csv';
const weatherFile = 'foulum_2023_weather_hourly.csv';
const there = hasOpenData(pileFile) && hasOpenData(weatherFile);

const msPerHour = 3_600_000;
const startedMs = timeMsOf('2023-08-29T09:30:00');
const removedMs = timeMsOf('2023-10-12T10:25:00');
const window = { fromMs: startedMs, toMs: removedMs, maximumGapMs: msPerHour };
const coreProbes = ['T12', 'T22', 'T32'] as const;

function load() {
  const table = readOpenTable(pileFile);
  const samples = (probe: string) => samplesOf(table, 'time_local', probe);
  const zone = (probe: string, position: ZoneSeries['position'] = 'core'): ZoneSeries => ({
    position,
    channel: probe,
    samples: samples(probe),
    represents: 'means',
    intervalMs: msPerHour,
    fromMs: null,
    toMs: null,
  });
  const air = samplesOf(readOpenTable(weatherFile), 'time_local', 'TempAir');
  return { zone, air, core: coreProbes.map((channel) => ({ channel, samples: samples(channel) })) };
}

/** Change of one probe over a step; zero when it was silent at either end. */
function change(before: number | null, after: number | null): number {
  return before === null || after === null ? 0 : after - before;
}

describe.skipIf(!there)('litter pile, autumn 2023', () => {
  const data = there ? load() : null;
  const pile = (series: readonly ZoneSeries[]) => pileOf(series, { startedMs, nowMs: removedMs });
  const rule = findRuleSet('us-pfrp-static');

  test.each([
    ['T12', 173],
    ['T22', 114],
    ['T32', 6],
  ])('%s held 55 C for %i hours without a break', (probe, hours) => {
    const result = evaluateSanitisation(rule, pile([data!.zone(probe)]));
    expect(result.plain.bestPeriodHours).toBe(hours);
    expect(heatUnits(data!.zone(probe), data!.air, window).above[1]?.hours).toBe(hours);
  });

  test('T22 dies at temperature: its clock stops at its last reading and the hole is shown', () => {
    const result = evaluateSanitisation(rule, pile([data!.zone('T22')]));
    expect(result.evidence.at(-1)?.toMs).toBe(timeMsOf('2023-09-09T04:00:00'));
    expect(result.evidence.at(-1)?.hours).toBe(114);
    expect(result.coverage[0]?.longestHoleHours).toBeGreaterThan(700);
  });

  test('the pile as a whole is not consistent: its coolest zones never reached 55 C', () => {
    const series = [data!.zone('T12'), data!.zone('T13', 'shoulder'), data!.zone('T11', 'base')];
    const result = evaluateSanitisation(rule, pile(series));
    expect(result.outcome).toBe('not-yet');
    expect(result.plain.totalHours).toBe(0);
  });

  test('no step in the core when a hot probe dies', () => {
    const points = coreCourse(data!.core, { ...window, stepMs: msPerHour });
    const alone = data!.core.map((one) => coreCourse([one], { ...window, stepMs: msPerHour }));
    points.slice(1).forEach(({ celsius, timeMs }, index) => {
      const before = points[index]!.celsius;
      if (celsius === null || before === null) return;
      const moved = alone.map((course) => change(course[index]!.celsius, course[index + 1]!.celsius));
      const largest = Math.max(...moved.map(Math.abs));
      expect(Math.abs(celsius - before), new Date(timeMs).toISOString()).toBeLessThanOrEqual(largest + 1e-9);
    });
    const whenFirstDied = points.find((point) => point.timeMs >= timeMsOf('2023-09-09T05:00:00'));
    expect(whenFirstDied?.carried).toBe(true);
    expect(whenFirstDied?.celsius).toBeGreaterThan(58);
  });

  test('stages: it heats in two days, is hot by day four, and is unknown once the last core probe is dead', () => {
    const input = {
      method: 'aerated-static-pile',
      startedMs,
      nowMs: removedMs,
      core: data!.core,
      journal: [],
    } as const;
    const spans = detectStages(input);
    const known = spans.filter((span) => span.stage !== null);
    expect(known.map((span) => span.stage)).toEqual(['lag', 'heating', 'hot']);
    const hotAfterHours = (known[2]!.fromMs - startedMs) / msPerHour;
    expect(hotAfterHours).toBeGreaterThan(48);
    expect(hotAfterHours).toBeLessThan(96);
    const dead = timeMsOf('2023-09-22T23:00:00');
    expect(spans.at(-1)).toMatchObject({ stage: null, toMs: removedMs });
    expect(Math.abs(spans.at(-1)!.fromMs - dead)).toBeLessThanOrEqual(7 * msPerHour);
  });

  test('heat over the air is positive and only counted where both were measured', () => {
    const units = heatUnits(data!.zone('T12'), data!.air, window);
    expect(units.watchedHours).toBe(589);
    expect(units.hoursWithAir).toBeLessThanOrEqual(589);
    expect(units.holeHours).toBeGreaterThan(460);
    expect(units.degreeDaysOverAir).toBeGreaterThan(500);
  });
});
