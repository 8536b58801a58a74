import { describe, expect, test } from 'vitest';
import type { ConditionId } from '../alarms/alarm.ts';
import type { JournalEntry } from '../yard/journal.ts';
import { advance } from './assess.ts';
import { handSamples, squeezeBand, withHands } from './byHand.ts';
import { createPileSubject, type PileSample } from './pileSubject.ts';
import {
  course,
  defaultLimits,
  hourMs,
  merged,
  placed,
  samplesOf,
  startMs,
  testFacts,
  wrote,
} from './testing/testPile.ts';

const read = (hours: number, celsius: number): JournalEntry => ({
  ...wrote('hand-reading', hours),
  value: celsius,
});
const squeezed = (hours: number, score: number): JournalEntry => ({
  ...wrote('squeeze-test', hours),
  value: score,
});
const daily = (days: number, celsius: (day: number) => number) =>
  Array.from({ length: days }, (_, day) => read(day * 24 + 9, celsius(day)));

/** A pile with the given journal and, where given, probe samples of a channel `a`. */
function judged(
  journal: readonly JournalEntry[],
  hours: number,
  probe: readonly PileSample[] | null = null,
  method: 'turned-windrow' | 'static-cage' = 'turned-windrow',
) {
  const channels = probe === null ? [] : [placed('a')];
  const facts = withHands(testFacts({ method, channels, journal }));
  const pile = createPileSubject(facts, defaultLimits);
  const { transitions } = advance(
    pile.subject,
    merged(probe ?? [], handSamples(facts)).filter(({ timeMs }) => timeMs <= startMs + hours * hourMs),
    startMs + hours * hourMs,
  );
  const view = pile.subject.judged.view(startMs + hours * hourMs);
  const at = (condition: ConditionId, event = 'became-active') =>
    transitions
      .filter((step) => step.alarmId.endsWith(`.${condition}`) && step.event === event)
      .map(({ atMs }) => (atMs - startMs) / hourMs);
  return { pile, view, at };
}

describe('a yard without probes is judged by its dial thermometer', () => {
  test('too hot, and back when a later reading says so', () => {
    const { at, pile } = judged([read(9, 60), read(33, 74), read(57, 58)], 60);
    expect(at('too-hot-ceiling')).toEqual([33.5]);
    expect(at('too-hot-ceiling', 'returned-to-normal')).toEqual([57.5]);
    expect(pile.subject.alarms.get('too-hot-ceiling')!.state).toBe('returned-unacknowledged');
  });

  test('never heated', () => {
    expect(
      judged(
        daily(5, () => 18),
        24 * 5,
      ).at('too-cold-never-heated'),
    ).toHaveLength(1);
    expect(
      judged(
        daily(5, (day) => 18 + day * 10),
        24 * 5,
      ).at('too-cold-never-heated'),
    ).toEqual([]);
  });

  test('stalled', () => {
    expect(
      judged(
        daily(7, (day) => (day < 4 ? 58 : 30)),
        24 * 7,
      ).at('stalled'),
    ).toHaveLength(1);
  });

  test('fell short: daily readings too few days above 55 C, and not when they were enough', () => {
    const falls = (hotDays: number) => daily(28, (day) => (day < hotDays ? 60 : 35));
    expect(judged(falls(2), 24 * 6, null, 'static-cage').at('too-cold-fell-short')).toHaveLength(1);
    expect(judged(falls(6), 24 * 12, null, 'static-cage').at('too-cold-fell-short')).toEqual([]);
  });

  test('drying out, by a squeeze test', () => {
    const dry = judged([squeezed(30, 2)], 40);
    expect(dry.at('drying-out-measured')).toHaveLength(1);
    expect(dry.view).toMatchObject({ moistureByHand: true, moistureFraction: 0.4 });
    expect(judged([squeezed(30, 3)], 40).at('drying-out-measured')).toEqual([]);
  });

  test('hours above 55 C are credited from one daily reading to the next with the lower of the two', () => {
    expect(
      judged(
        daily(4, (day) => [60, 56, 54, 70][day]!),
        96,
      ).view.hoursAbove55,
    ).toBe(24);
    expect(judged([read(9, 60), read(36, 60)], 48).view.hoursAbove55).toBe(0);
  });
});

describe('the evidence', () => {
  test('says that it was read by hand, and how long ago', () => {
    const { pile } = judged([read(9, 60), read(33, 74)], 36);
    expect(pile.subject.alarms.get('too-hot-ceiling')!.evidence).toEqual(
      expect.arrayContaining([
        { label: 'core, read by hand', value: 74, unit: 'C' },
        { label: 'read by hand, ago', value: 1, unit: 'h' },
      ]),
    );
  });

  test('gives a squeeze test as a band, and says that nobody stands behind the numbers', () => {
    const { evidence } = judged([squeezed(30, 2)], 40).pile.subject.alarms.get('drying-out-measured')!;
    expect(evidence[0]).toEqual({
      label: 'moisture by squeeze test (common practice, no source)',
      value: 'crumbles: about 35 to 45',
      unit: '%',
    });
  });
});

describe('beside a probe', () => {
  const probe = (until: number) => course('a', 0, until, () => 58);

  test('a reading by hand counts while the probe is dead, for a day', () => {
    const journal = [read(30, 63)];
    expect(judged(journal, 40, probe(20)).view).toMatchObject({
      coreCelsius: 63,
      coreByHand: true,
      coreCertainty: 'measured',
    });
    expect(judged(journal, 56.1, probe(20)).view).toMatchObject({ coreCelsius: null, coreByHand: false });
  });

  test('it stands in for a hotter probe that was lost before, though the advice still reckons with the heat', () => {
    const hot = course('a', 0, 20, () => 75);
    const { view, at } = judged([read(22, 50)], 24, hot);
    expect(view).toMatchObject({ coreCelsius: 50, coreCertainty: 'measured', hottestOfDayCelsius: 75 });
    expect(at('too-hot-ceiling', 'returned-to-normal')).toEqual([22.5]);
  });

  test('it leaves the probe’s own sanitisation record as it is', () => {
    const alone = judged([], 100, probe(100)).view.sanitisation!;
    expect(alone.progress).toBeGreaterThan(0.1);
    expect(judged([read(30, 60)], 100, probe(100)).view.sanitisation).toEqual(alone);
  });

  test('a cooler one changes nothing; a hotter one raises, and the probe alone does not clear it for a day', () => {
    expect(judged([read(30, 40)], 32, probe(40)).view).toMatchObject({ coreCelsius: 58, coreByHand: false });
    const hotter = judged([read(30, 74)], 50, probe(70));
    expect(hotter.at('too-hot-ceiling')).toEqual([30.5]);
    expect(hotter.view).toMatchObject({ coreCelsius: 58, coreCertainty: 'bound', coreByHand: false });
    expect(judged([read(30, 74)], 60, probe(70)).view.coreCertainty).toBe('measured');
  });
});

test('a slip of the pen judges nothing; a squeeze score of none is none', () => {
  expect(judged([read(9, 60), read(10, 600)], 12).view.coreCelsius).toBe(60);
  expect(squeezeBand(0)).toBeNull();
  expect(squeezeBand(4.4)).toMatchObject({ score: 4 });
});

describe('a probe that was pulled', () => {
  const samples = course('a', 0, 40, (hours) => (hours > 20 && hours < 30 ? 12 : 62));

  test('does not make the pile look cool: it is as silent, and its lead is kept', () => {
    const journal = [wrote('probe-pulled', 20), wrote('probe-returned', 30)];
    expect(judged(journal, 25, samples).view).toMatchObject({ coreCelsius: null });
    expect(judged(journal, 39, samples).view).toMatchObject({ coreCelsius: 62 });
    expect(judged(journal, 39, samples).at('stalled')).toEqual([]);
  });

  test('never returned counts again after a day', () => {
    const longer = merged(samples, samplesOf('a', [[45 * 60, 30]]));
    expect(judged([wrote('probe-pulled', 20)], 45.5, longer).view).toMatchObject({ coreCelsius: 30 });
  });
});
