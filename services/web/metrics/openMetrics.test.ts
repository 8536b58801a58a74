import { describe, expect, it } from 'vitest';
import { readOpenMetrics } from '../../../tests/helpers/readOpenMetrics.ts';
import { formatOpenMetrics, type MetricFamily } from './openMetrics.ts';

const waits: MetricFamily = {
  name: 'tilth_wait_seconds',
  type: 'gauge',
  unit: 'seconds',
  help: 'How long the oldest one waits.',
  samples: [{ labels: { state: 'sent', channel: 'e-mail' }, value: 2.5 }],
};
const counted: MetricFamily = {
  name: 'tilth_messages',
  type: 'counter',
  unit: null,
  help: 'Messages.',
  samples: [{ value: 7 }],
};

describe('formatOpenMetrics', () => {
  it('writes type, unit and help before the numbers, counters with _total, and the closing line', () => {
    expect(formatOpenMetrics([waits, counted])).toBe(
      [
        '# TYPE tilth_wait_seconds gauge',
        '# UNIT tilth_wait_seconds seconds',
        '# HELP tilth_wait_seconds How long the oldest one waits.',
        'tilth_wait_seconds{channel="e-mail",state="sent"} 2.5',
        '# TYPE tilth_messages counter',
        '# HELP tilth_messages Messages.',
        'tilth_messages_total 7',
        '# EOF\n',
      ].join('\n'),
    );
  });

  it('says nothing and still ends, when there is nothing', () => {
    expect(formatOpenMetrics([])).toBe('# EOF\n');
  });

  it('escapes what would break a line, and is read back by a stranger', () => {
    const odd = { ...waits, samples: [{ labels: { name: 'a "b"\\\nc' }, value: Number.NaN }] };
    const text = formatOpenMetrics([odd, { ...counted, samples: [{ value: Number.POSITIVE_INFINITY }] }]);
    expect(text).toContain('{name="a \\"b\\"\\\\\\nc"} NaN');
    expect(readOpenMetrics(text).get('tilth_messages_total')).toBe(Number.POSITIVE_INFINITY);
  });

  it('writes an info with its facts as labels', () => {
    const info = { name: 'tilth_build', type: 'info', unit: null, help: 'What runs.' } as const;
    const text = formatOpenMetrics([{ ...info, samples: [{ labels: { version: '0.1.0' }, value: 1 }] }]);
    expect(text).toContain('tilth_build_info{version="0.1.0"} 1');
    expect(() => formatOpenMetrics([{ ...info, samples: [{ value: 2 }] }])).toThrow(/value 1/);
  });

  it.each<[string, MetricFamily, RegExp]>([
    ['a name with a hyphen', { ...counted, name: 'tilth-messages' }, /allowed in a name/],
    ['a name with the ending of its type', { ...counted, name: 'tilth_messages_total' }, /ending/],
    ['a unit its name does not end with', { ...waits, unit: 'bytes' }, /must end with its unit/],
    ['a counter below 0', { ...counted, samples: [{ value: -1 }] }, /0 or more/],
    ['a counter that is no number', { ...counted, samples: [{ value: Number.NaN }] }, /0 or more/],
    ['the same labels twice', { ...waits, samples: [...waits.samples, ...waits.samples] }, /given twice/],
  ])('refuses %s', (_what, family, problem) => {
    expect(() => formatOpenMetrics([family])).toThrow(problem);
  });

  it('refuses one family given twice', () => {
    expect(() => formatOpenMetrics([counted, counted])).toThrow(/given twice/);
  });
});
