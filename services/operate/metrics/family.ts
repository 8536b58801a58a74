import type { MetricFamily, MetricSample } from '../../web/port.ts';

/** One number that goes up and down; null where it is not known yet, which leaves the family without a number. */
export function gauge(name: string, help: string, value: number | null): MetricFamily {
  return gauges(name, help, value === null ? [] : [{ value }]);
}

export function gauges(name: string, help: string, samples: readonly MetricSample[]): MetricFamily {
  return { name, type: 'gauge', unit: unitIn(name), help, samples };
}

/** One number that only grows until the program ends. */
export function counter(name: string, help: string, value: number): MetricFamily {
  return counters(name, help, [{ value }]);
}

export function counters(name: string, help: string, samples: readonly MetricSample[]): MetricFamily {
  return { name, type: 'counter', unit: unitIn(name), help, samples };
}

/** Facts in labels. */
export function info(name: string, help: string, labels: Readonly<Record<string, string>>): MetricFamily {
  return { name, type: 'info', unit: null, help, samples: [{ labels, value: 1 }] };
}

const units = ['seconds', 'bytes'];

function unitIn(name: string): string | null {
  return units.find((unit) => name.endsWith(`_${unit}`)) ?? null;
}
