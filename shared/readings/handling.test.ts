import { describe, expect, test } from 'vitest';
import type { JournalKind } from '../yard/journal.ts';
import { handledSince, probesOut } from './handling.ts';

const hourMs = 3_600_000;
const day = 24 * hourMs;
const at = (kind: JournalKind, hours: number) => ({ kind, timeMs: hours * hourMs });

describe('jumps are excused', () => {
  const opened = [at('note', 9), at('opened', 10)];
  test.each([
    [9.4, null],
    [9.5, 9.5],
    [10, 9.5],
    [16, 9.5],
    [16.1, null],
  ])('at %d h, for an opening written down at 10 h: since %s h', (hours, since) => {
    const found = handledSince(opened, hours * hourMs);
    expect(found === null ? null : found / hourMs).toBe(since);
  });

  test('until a pulled probe has been returned, and some hours more', () => {
    const journal = [at('probe-pulled', 1), at('probe-returned', 20)];
    expect(handledSince(journal, 26 * hourMs)).toBe(0.5 * hourMs);
    expect(handledSince(journal, 26.1 * hourMs)).toBeNull();
  });

  test('from the first of several that overlap, anew after a pause', () => {
    const journal = [at('opened', 1), at('watered', 5), at('turned', 100)];
    expect(handledSince(journal, 9 * hourMs)).toBe(0.5 * hourMs);
    expect(handledSince(journal, 101 * hourMs)).toBe(99.5 * hourMs);
  });

  test('never by a note, a hand reading or an entry of the future', () => {
    expect(handledSince([at('note', 1), at('hand-reading', 1)], hourMs)).toBeNull();
    expect(handledSince([at('opened', 10)], hourMs)).toBeNull();
  });
});

describe('probes are out of the pile', () => {
  test('from pulled to returned', () => {
    const journal = [at('probe-pulled', 1), at('probe-pulled', 2), at('probe-returned', 4)];
    expect(probesOut(journal)).toEqual([{ fromMs: hourMs, toMs: 4 * hourMs }]);
  });

  test('for a day at most when nobody wrote that they are back', () => {
    expect(probesOut([at('probe-pulled', 0)])).toEqual([{ fromMs: 0, toMs: day }]);
    expect(probesOut([at('probe-returned', 3)])).toEqual([]);
  });
});
