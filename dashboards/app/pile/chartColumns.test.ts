import { expect, it } from 'vitest';
import type { SeriesChannel, SeriesView } from '../../../shared/api/types.ts';
import { chartColumns } from './chartColumns.ts';

const hourMs = 3_600_000;

function channel(
  position: SeriesChannel['position'],
  points: readonly (readonly [hour: number, value: number, quality?: number])[],
) {
  return {
    channel: `urn:dev:example:x_${position}`,
    ...{ position, quantity: 'temperature', depthMetres: 0.6, rollups: null },
    raw: {
      timesMs: points.map(([hour]) => hour * hourMs),
      values: points.map(([, value]) => value),
      quality: points.map(([, , quality = 0]) => quality),
    },
  } as unknown as SeriesChannel;
}

const series = (...channels: SeriesChannel[]) => ({ step: 'raw', channels }) as unknown as SeriesView;

it('gives all channels one time axis, undefined where one has no reading at another’s time', () => {
  const { data } = chartColumns(
    series(
      channel('core', [
        [1, 60],
        [2, 61],
      ]),
      channel('edge', [[1.5, 30]]),
    ),
    'C',
  );
  expect(data).toEqual([
    [3600, 5400, 7200],
    [60, undefined, 61],
    [undefined, 30, undefined],
  ]);
});

it('breaks a line with a null where good readings are missing for more than two hours', () => {
  const { data } = chartColumns(
    series(
      channel('core', [
        [1, 60],
        [3, 61],
        [6, 62],
      ]),
    ),
    'C',
  );
  expect(data).toEqual([
    [3600, 10_800, 10_801, 21_600],
    [60, 61, null, 62],
  ]);
});

it('shows the yard’s unit and tells lines apart by dash as well as by colour', () => {
  const all = (['core', 'shoulder', 'edge', 'base', 'air'] as const).map((position) =>
    channel(position, [[1, 50]]),
  );
  const { data, lines } = chartColumns(series(...all), 'F');
  expect(data[1]).toEqual([122]);
  expect(new Set(lines.map(({ dash }) => String(dash))).size).toBe(all.length);
  expect(new Set(lines.map(({ stroke }) => stroke)).size).toBe(all.length);
});

it('leaves out readings that are not believed', () => {
  const { data, highest } = chartColumns(
    series(
      channel('core', [
        [1, 60],
        [1.5, 85, 2],
        [2, 61],
      ]),
    ),
    'C',
  );
  expect(data).toEqual([
    [3600, 7200],
    [60, 61],
  ]);
  expect(highest).toBe(61);
});

it('leaves out what is no temperature', () => {
  const moisture = { ...channel('core', [[1, 0.6]]), quantity: 'moisture' } as SeriesChannel;
  expect(chartColumns(series(moisture), 'C').data).toEqual([[]]);
});
