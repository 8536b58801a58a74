import fc from 'fast-check';
import { expect, test } from 'vitest';
import { fitOneSegment, type MessagePiece } from './fitOneSegment.ts';

const alarm: MessagePiece[] = [
  { text: 'Gannet Row, bay 3, Leaf Cage', priority: 1, shorter: ['bay 3, Leaf Cage'] },
  { text: 'core 72.4 °C, limit 71.0 °C', priority: 1 },
  { text: 'for 25 min', priority: 3 },
  { text: 'Open the lid and pull the channels; do not turn.', priority: 2, shorter: ['Open the lid.'] },
  { text: 'Reply A3 to acknowledge', priority: 1 },
];

test('what fits is only put into the GSM alphabet', () => {
  const { text, septets, isShortened } = fitOneSegment(alarm);
  expect(text).toBe(
    'Gannet Row, bay 3, Leaf Cage core 72.4 C, limit 71.0 C for 25 min Open the lid and pull the channels; do not turn. Reply A3 to acknowledge',
  );
  expect([septets, isShortened]).toEqual([138, false]);
});

test('the least important goes first, and each says it shorter before it goes', () => {
  const long = alarm.with(0, { text: `${'Very '.repeat(12)}long name`, priority: 1, shorter: ['bay 3'] });
  const { text, isShortened } = fitOneSegment(long);
  expect(text).toContain('Very Very');
  expect(text).not.toContain('25 min');
  expect(text).toContain('Open the lid.');
  expect(isShortened).toBe(true);
});

test('of two pieces equally important the later one goes', () => {
  const half = (letter: string) => ({ text: letter.repeat(100), priority: 2 });
  expect(fitOneSegment([half('a'), half('b')]).text).toBe('a'.repeat(100));
});

test('when all else is gone, the kept pieces take their shorter forms and only then are cut', () => {
  const name = { text: 'x'.repeat(300), priority: 1, shorter: ['bay 3'] };
  expect(fitOneSegment([name, { text: 'hot', priority: 1 }]).text).toBe('bay 3 hot');
  expect(fitOneSegment([{ text: 'x'.repeat(300), priority: 1 }]).text).toBe('x'.repeat(160));
});

test('a piece that comes to nothing in the GSM alphabet leaves no gap', () => {
  const pieces = ['Bay 3', '堆肥', 'hot'].map((text) => ({ text, priority: 1 }));
  expect(fitOneSegment(pieces, ', ').text).toBe('Bay 3, hot');
});

test('nothing ever takes more than one message', () => {
  const piece = fc.record({
    text: fc.string({ unit: 'binary', maxLength: 200 }),
    priority: fc.integer({ min: 1, max: 4 }),
    shorter: fc.array(fc.string({ maxLength: 80 }), { maxLength: 2 }),
  });
  fc.assert(
    fc.property(fc.array(piece, { maxLength: 6 }), (pieces) => {
      expect(fitOneSegment(pieces).septets).toBeLessThanOrEqual(160);
    }),
  );
});

test('a pair with ESC is not cut in half', () => {
  expect(fitOneSegment([{ text: `${'a'.repeat(159)}€`, priority: 1 }]).text).toBe('a'.repeat(159));
});
