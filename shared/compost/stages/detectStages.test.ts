import { describe, expect, test } from 'vitest';
import type { JournalKind } from '../../yard/journal.ts';
import type { PileMethod } from '../../yard/method.ts';
import { detectStages, type StageInput, stageNow } from './detectStages.ts';

const msPerHour = 3_600_000;

/** Straight pieces of a course: from where it stands to `celsius`, taking `hours`; null is silence. */
type Piece = { readonly hours: number; readonly celsius: number | null };

function samplesOf(start: number, pieces: readonly Piece[]) {
  const samples: { timeMs: number; value: number }[] = [];
  let [hour, level] = [0, start];
  for (const piece of pieces) {
    const from = level;
    for (let step = 1; step <= piece.hours; step++, hour++) {
      if (piece.celsius === null) continue;
      level = from + ((piece.celsius - from) * step) / piece.hours;
      samples.push({ timeMs: hour * msPerHour, value: level });
    }
  }
  return { samples, hours: hour };
}

function pile(
  pieces: readonly Piece[],
  method: PileMethod = 'turned-windrow',
  events: [JournalKind, number][] = [],
): StageInput {
  const { samples, hours } = samplesOf(15, pieces);
  const journal = events.map(([kind, hour]) => ({ kind, timeMs: hour * msPerHour }));
  return { method, startedMs: 0, nowMs: hours * msPerHour, core: [{ channel: 'core', samples }], journal };
}

function stagesOf(input: StageInput) {
  return detectStages(input).map((span) => span.stage);
}

const rise: Piece[] = [
  { hours: 24, celsius: 16 },
  { hours: 48, celsius: 60 },
  { hours: 240, celsius: 60 },
];

describe('stages', () => {
  test('a course from lag to cooling, in order', () => {
    const spans = detectStages(pile([...rise, { hours: 72, celsius: 30 }, { hours: 48, celsius: 28 }]));
    expect(spans.map((span) => span.stage)).toEqual(['lag', 'heating', 'hot', 'cooling']);
    expect(spans.every((span, index) => index === 0 || span.fromMs === spans[index - 1]!.toMs)).toBe(true);
  });

  test('the dip after a turn is not cooling', () => {
    const dip: Piece[] = [
      { hours: 3, celsius: 36 },
      { hours: 36, celsius: 37 },
      { hours: 8, celsius: 58 },
    ];
    expect(stagesOf(pile([...rise, ...dip], 'turned-windrow', [['turned', 312]]))).not.toContain('cooling');
    expect(stagesOf(pile([...rise, ...dip]))).toContain('cooling');
  });

  test('curing begins a week after a turn that did not bring the heat back', () => {
    const cooled = [...rise, { hours: 48, celsius: 35 }, { hours: 240, celsius: 30 }];
    expect(stagesOf(pile(cooled, 'turned-windrow', [['turned', 370]])).at(-1)).toBe('curing');
    expect(stagesOf(pile(cooled)).at(-1)).toBe('cooling');
    expect(stagesOf(pile(cooled, 'static-cage')).at(-1)).toBe('curing');
  });

  test('a cage watered every day still comes to cool', () => {
    const cooled = [...rise, { hours: 48, celsius: 35 }, { hours: 96, celsius: 30 }];
    const daily = Array.from({ length: 20 }, (_, day): [JournalKind, number] => ['watered', day * 24]);
    expect(stagesOf(pile(cooled, 'static-cage', daily)).at(-1)).toBe('cooling');
  });

  test('a turn that brings the heat back is hot again', () => {
    const again = [
      ...rise,
      { hours: 48, celsius: 35 },
      { hours: 72, celsius: 33 },
      { hours: 30, celsius: 55 },
    ];
    expect(stagesOf(pile(again))).toEqual(['lag', 'heating', 'hot', 'cooling', 'hot']);
  });

  test('a pile that warms a little and falls back never counts as hot', () => {
    const weak: Piece[] = [
      { hours: 48, celsius: 38 },
      { hours: 72, celsius: 20 },
      { hours: 48, celsius: 18 },
    ];
    expect(stagesOf(pile(weak))).toEqual(['lag', 'heating', 'cooling']);
  });

  test('silence is unknown, and the stage goes on from where it was', () => {
    const spans = detectStages(pile([...rise, { hours: 100, celsius: null }, { hours: 24, celsius: 58 }]));
    expect(spans.map((span) => span.stage)).toEqual(['lag', 'heating', 'hot', null, 'hot']);
    expect(stageNow(detectStages(pile([...rise, { hours: 100, celsius: null }])))).toBeNull();
  });

  test('fresh material on a cooled pile starts it over', () => {
    const spans = stagesOf(
      pile(
        [...rise, { hours: 48, celsius: 25 }, { hours: 72, celsius: 20 }, { hours: 24, celsius: 20 }],
        'hot-bin',
        [['added', 432]],
      ),
    );
    expect(spans).toEqual(['lag', 'heating', 'hot', 'cooling', 'lag']);
  });

  test('only a person finishes a pile, and a worm bed never needs to heat', () => {
    const flat: Piece[] = [{ hours: 1000, celsius: 18 }];
    expect(stagesOf(pile(flat, 'worm-bed'))).toEqual(['curing']);
    expect(stagesOf(pile(flat, 'worm-bed', [['finished', 900]]))).toEqual(['curing', 'finished']);
  });

  test('before the first reading nothing is known', () => {
    expect(stagesOf(pile([{ hours: 20, celsius: null }]))).toEqual([null]);
  });
});

test('a core probe that dies hot does not look like a fall to the cooler one beside it', () => {
  const hot = samplesOf(15, [...rise, { hours: 100, celsius: null }]);
  const cool = samplesOf(15, [
    { hours: 72, celsius: 39 },
    { hours: 340, celsius: 38 },
  ]);
  const core = [hot, cool].map(({ samples }, index) => ({ channel: `core${index}`, samples }));
  const input: StageInput = { method: 'hot-bin', startedMs: 0, nowMs: 412 * msPerHour, core, journal: [] };
  expect(stagesOf(input)).toEqual(['lag', 'heating', 'hot']);
});
