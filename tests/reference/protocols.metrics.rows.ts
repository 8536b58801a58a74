import { expect } from 'vitest';
import { formatOpenMetrics, type MetricFamily } from '../../services/web/metrics/openMetrics.ts';
import { readOpenMetrics } from '../helpers/readOpenMetrics.ts';
import type { CheckRow } from './checkRow.ts';

const family: MetricFamily = {
  name: 'tilth_messages',
  type: 'counter',
  unit: null,
  help: 'Messages.',
  samples: [{ value: 7 }],
};

export const rows: CheckRow[] = [
  {
    id: 'C-120',
    source: 'OpenMetrics',
    status: 'confirmed by lookup',
    check: () => {
      for (const page of [formatOpenMetrics([]), formatOpenMetrics([family])]) {
        expect(page.endsWith('# EOF\n')).toBe(true);
        readOpenMetrics(page);
        expect(() => readOpenMetrics(page.replace('# EOF\n', ''))).toThrow(/EOF/);
      }
    },
  },
];
