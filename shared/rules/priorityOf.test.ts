import { describe, expect, test } from 'vitest';
import { priorities } from '../alarms/alarm.ts';
import { priorityOf, type Stake, type Sureness, type Urgency } from './priorityOf.ts';

const urgencies: readonly Urgency[] = ['now', 'soon', 'later'];
const stakes: readonly Stake[] = ['danger', 'batch', 'quality', 'upkeep'];
const sure: readonly Sureness[] = ['seen', 'likely', 'possible'];
/** 0 is most pressing. */
const rank = (urgency: Urgency, stake: Stake, sureness: Sureness) =>
  priorities.indexOf(priorityOf(urgency, stake, sureness));
const isRising = (ranks: readonly number[]) => ranks.every((one, index) => one >= (ranks[index - 1] ?? 0));

describe('a priority', () => {
  test('never presses more for what can wait longer, is worth less or is less sure', () => {
    for (const urgency of urgencies)
      for (const sureness of sure)
        expect(isRising(stakes.map((stake) => rank(urgency, stake, sureness)))).toBe(true);
    for (const stake of stakes) {
      for (const sureness of sure)
        expect(isRising(urgencies.map((urgency) => rank(urgency, stake, sureness)))).toBe(true);
      for (const urgency of urgencies)
        expect(isRising(sure.map((sureness) => rank(urgency, stake, sureness)))).toBe(true);
    }
  });

  test('is highest only where people are in danger, and doubt never makes danger wait', () => {
    for (const urgency of urgencies)
      for (const sureness of sure) {
        for (const stake of stakes.filter((one) => one !== 'danger'))
          expect(rank(urgency, stake, sureness)).toBeGreaterThan(0);
        expect(rank(urgency, 'danger', sureness)).toBe(rank(urgency, 'danger', 'seen'));
      }
    expect(priorityOf('now', 'danger', 'possible')).toBe('highest');
  });

  test('a batch lost today is high when seen, medium when only possible', () => {
    expect([priorityOf('soon', 'batch', 'seen'), priorityOf('soon', 'batch', 'possible')]).toEqual([
      'high',
      'medium',
    ]);
  });
});
