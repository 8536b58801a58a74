import { describe, expect, test } from 'vitest';
import { ruleSetsFor } from '../compost/sanitisation/ruleSets.ts';
import { heatRecord, type RecordSource, recordGaps } from './heatRecord.ts';
import { createPileSubject } from './pileSubject.ts';
import { addPastHour, atInstant } from './pileWindow.ts';
import { defaultLimits, hourMs, placed, startMs, testFacts, wrote } from './testing/testPile.ts';

/** A pile's hours from what core and edge were at each; null = silent. */
function sourceOf(
  core: (hour: number) => number | null,
  edge: (hour: number) => number | null,
  hours: number,
) {
  const facts = testFacts({
    channels: [placed('core'), placed('edge', 'edge'), placed('air', 'air')],
    journal: [wrote('built', 0), wrote('turned', 30)],
  });
  const hoursBefore = Array.from({ length: hours }, (_, hour) => {
    const [ofCore, ofEdge] = [core(hour), edge(hour)];
    const at = startMs + hour * hourMs;
    return {
      startMs: at,
      core: ofCore === null ? null : { startMs: at, minimum: ofCore, maximum: ofCore },
      means: [
        ...(ofCore === null ? [] : [{ placementId: 'core', mean: ofCore }]),
        ...(ofEdge === null ? [] : [{ placementId: 'edge', mean: ofEdge }]),
        { placementId: 'air', mean: 8 },
      ],
    };
  });
  return { facts, hoursBefore } satisfies RecordSource;
}

const rules = ruleSetsFor('static-cage');
const resultsOf = (source: RecordSource, hours: number) =>
  new Map(heatRecord(source, rules, startMs + hours * hourMs, 'C').map((one) => [one.ruleId, one]));

describe('a pile’s heat record', () => {
  test('holds its hours against every rule of its method; the coolest watched place decides', () => {
    const results = resultsOf(
      sourceOf(
        () => 66,
        (hour) => (hour < 100 ? 56 : 40),
        200,
      ),
      200,
    );
    expect([...results.keys()]).toEqual(rules.map(({ id }) => id));
    // 40 CFR Part 503 Appendix B: three days at 55 C or more.
    expect(results.get('us-pfrp-static')).toMatchObject({
      outcome: 'consistent',
      zonesCounted: ['core', 'edge'],
    });
    // BioAbfV asks for fourteen days.
    expect(results.get('de-bioabfv')!.outcome).toBe('not-yet');
    expect(results.get('de-bioabfv')!.missing[0]).toMatch(/more at or above/);
  });

  test('comes to the same as the standing that walls show', () => {
    for (const cool of [70, 90]) {
      const source = sourceOf(
        () => 60,
        (hour) => (hour < cool ? 57 : 50),
        150,
      );
      const pile = createPileSubject(source.facts, defaultLimits);
      for (const hour of source.hoursBefore) addPastHour(pile.window, hour);
      pile.window.hour = startMs / hourMs + 149;
      const live = atInstant(pile.window, startMs + 150 * hourMs).sanitisation!;
      const record = resultsOf(source, 150).get(live.ruleId)!;
      expect([record.outcome, record.progress]).toEqual([live.outcome, live.progress]);
    }
  });

  test('names every gap of a probe, and only of probes that stood there', () => {
    const source = sourceOf(
      (hour) => (hour === 20 ? null : 60),
      (hour) => (hour >= 40 && hour < 46 ? null : 57),
      90,
    );
    const gaps = recordGaps(source, startMs + 90 * hourMs).map(({ placementId, fromMs, toMs }) => [
      placementId,
      (fromMs - startMs) / hourMs,
      (toMs - startMs) / hourMs,
    ]);
    expect(gaps).toEqual([['edge', 40, 46]]);
    expect(recordGaps(source, startMs + 90 * hourMs, 1).length).toBe(2);
    expect(recordGaps(source, startMs + 100 * hourMs).map(({ placementId }) => placementId)).toEqual([
      'edge',
      'core',
      'edge',
    ]);
  });
});
