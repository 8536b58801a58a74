import { describe, expect, test } from 'vitest';
import type { HeatRecordResult, HeatRecordView } from '../../../shared/api/types.ts';
import { showAs } from '../../common/format.ts';
import { csvOf } from './csv.ts';
import { daysCsv, hoursCsv } from './recordCsv.ts';
import { recordDays } from './recordDays.ts';

const hourMs = 3_600_000;
const startedMs = Date.UTC(2026, 9, 24, 12);
const hours = 72;
const dayOf = (timeMs: number) => new Date(timeMs).toLocaleDateString('en-GB', { timeZone: 'Europe/London' });
const startsMs = Array.from({ length: hours }, (_, hour) => startedMs + hour * hourMs);
const placement = {
  ...{ id: 'core', pileId: 'p', channel: 'c', quantity: 'temperature', position: 'core' },
  ...{ depthMetres: 0.5, fromMs: startedMs, toMs: null },
};
const record = {
  yard: { name: 'Gannet Row' },
  pile: { name: '=Cage, "2"', startedMs },
  nowMs: startedMs + hours * hourMs,
  placements: [placement],
  hours: { startsMs, means: { core: startsMs.map((_, hour) => (hour === 30 ? null : 50 + hour / 10)) } },
  gaps: [{ placementId: 'core', position: 'core', fromMs: startsMs[28]!, toMs: startsMs[31]! }],
  journal: [{ kind: 'turned', note: 'by, hand', timeMs: startsMs[30]! }],
} as unknown as HeatRecordView;
const result = {
  title: 'a rule',
  evidence: [{ fromMs: startsMs[10]! + hourMs / 2, toMs: startsMs[40]! }],
} as unknown as HeatRecordResult;

describe('the days of a record', () => {
  const days = recordDays(record, result, dayOf);

  test('are the yard’s own, also the long one when the clocks go back', () => {
    expect(days.map(({ startMs }) => dayOf(startMs))).toEqual([
      '24/10/2026',
      '25/10/2026',
      '26/10/2026',
      '27/10/2026',
    ]);
    // 25 October 2026 has 25 hours in London.
    const counted = days.map((day) => day.counted);
    expect(counted[0]! + counted[1]! + counted[2]!).toBeCloseTo(29.5, 9);
    expect(counted[1]).toBe(25);
  });

  test('hold each channel’s ends, the silence and the work', () => {
    expect(days[0]!.ends.get('core')).toEqual([50, 51]);
    expect(days.map(({ silent }) => silent)).toEqual([0, 3, 0, 0]);
    expect(days[1]!.journal.map(({ kind }) => kind)).toEqual(['turned']);
  });
});

describe('the tables', () => {
  test('keep commas and quotes, and never begin a cell as a formula', () => {
    expect(csvOf([['=1+1', 'a,b', 'say "x"', 4, null]])).toBe('\'=1+1,"a,b","say ""x""",4,\r\n');
  });

  test('say what they are of, in the yard’s unit, an hour or a day a row', () => {
    showAs({ temperatureUnit: 'F', timeZone: 'Europe/London' });
    const lines = hoursCsv(record, result, dayOf).split('\r\n');
    expect(lines[1]).toBe('pile,"\'=Cage, ""2"""');
    expect(lines).toContain('hour begins (UTC),hour begins (yard),core 0.50 m,"counts toward the rule, h"');
    expect(lines.filter((line) => line.startsWith('2026-')).length).toBe(hours);
    expect(lines.find((line) => line.startsWith(new Date(startsMs[10]!).toISOString()))).toMatch(
      /,123.8,0.5$/,
    );
    const byDay = daysCsv(record, result, recordDays(record, result, dayOf), dayOf);
    expect(byDay).toContain('25/10/2026,123.98,');
    expect(byDay).toContain('"Turned by, hand"');
    showAs({ temperatureUnit: 'C', timeZone: 'UTC' });
  });
});
