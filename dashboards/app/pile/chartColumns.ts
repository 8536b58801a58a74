import type { SeriesChannel, SeriesView } from '../../../shared/api/types.ts';
import { positions, type TemperatureUnit } from '../../../shared/yard/yard.ts';
import { measures, positionWords } from '../../common/words.ts';
import { text } from './words.ts';

export interface ChartLine {
  readonly label: string;
  readonly stroke: string;
  readonly width: number;
  readonly dash?: number[];
  readonly spanGaps: false;
  readonly points: { readonly show: false };
}

/** Seconds in the first column, one column a channel after it; null where a channel has no good reading. */
export interface ChartColumns {
  readonly data: readonly (readonly (number | null)[])[];
  readonly lines: readonly ChartLine[];
  /** Ends of all values, in the yard's unit; 0 when there is none. */
  readonly lowest: number;
  readonly highest: number;
}

/** Colour and dash by position, so that lines are told apart without colour too. */
const looks: Readonly<Record<string, { stroke: string; width: number; dash?: number[] }>> = {
  core: { stroke: '#6e2417', width: 2.5 },
  shoulder: { stroke: '#a8583a', width: 2, dash: [10, 4] },
  edge: { stroke: '#8a6a14', width: 2, dash: [4, 4] },
  base: { stroke: '#55605a', width: 2, dash: [2, 5] },
  air: { stroke: '#3d5877', width: 2, dash: [1, 2] },
};

/** Longest pause between two points that is still drawn as one line, by step. */
const bridgeSeconds = { raw: 2 * 3600, hour: 2 * 3600, day: 2 * 86_400 } as const;

/** Turns the service's columns into what the chart wants: one shared time axis, gaps as nulls, the yard's unit. */
export function chartColumns(series: SeriesView, unit: TemperatureUnit): ChartColumns {
  const shown = series.channels.filter(({ quantity }) => quantity === 'temperature').sort(insideOut);
  const points = shown.map((channel) => pointsOf(channel, bridgeSeconds[series.step], unit));
  const times = [...new Set(points.flatMap((column) => [...column.keys()]))].sort(
    (one, other) => one - other,
  );
  const [lowest, highest] = endsOf(points);
  return {
    lowest,
    highest,
    data: [times, ...points.map((column) => valuesAt(column, times))],
    lines: shown.map(({ position, depthMetres }) => ({
      label:
        depthMetres === null
          ? positionWords[position]
          : text.placed(positionWords[position], measures.metres(depthMetres.toFixed(1))),
      ...looks[position]!,
      spanGaps: false,
      points: { show: false },
    })),
  };
}

/** Core first, then outwards; deeper before shallower. */
function insideOut(one: SeriesChannel, other: SeriesChannel): number {
  const rank = ({ position }: SeriesChannel) => positions.indexOf(position);
  return rank(one) - rank(other) || (other.depthMetres ?? 0) - (one.depthMetres ?? 0);
}

function endsOf(points: readonly ReadonlyMap<number, number | null>[]): [lowest: number, highest: number] {
  let [lowest, highest] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const column of points)
    for (const value of column.values()) {
      if (value === null) continue;
      lowest = Math.min(lowest, value);
      highest = Math.max(highest, value);
    }
  return lowest > highest ? [0, 0] : [lowest, highest];
}

/** Value by second; a null a second after the last point before each gap breaks the line there. */
function pointsOf(channel: SeriesChannel, bridge: number, unit: TemperatureUnit): Map<number, number | null> {
  const times = channel.raw?.timesMs ?? channel.rollups?.startsMs ?? [];
  const values = channel.raw?.values ?? channel.rollups?.means ?? [];
  const column = new Map<number, number | null>();
  let before: number | null = null;
  for (const [index, timeMs] of times.entries()) {
    // What is not believed is no part of the curve; the pictures say so at their moment.
    if (channel.raw !== null && channel.raw.quality[index] !== 0) continue;
    const seconds = Math.round(timeMs / 1000);
    if (before !== null && seconds - before > bridge) column.set(before + 1, null);
    const celsius = values[index]!;
    column.set(seconds, unit === 'F' ? celsius * 1.8 + 32 : celsius);
    before = seconds;
  }
  return column;
}

/**
 * Where other channels have a time this one has not, the line must run on: undefined leaves it unbroken, null breaks it.
 */
function valuesAt(column: ReadonlyMap<number, number | null>, times: readonly number[]): (number | null)[] {
  return times.map((time) => column.get(time) as number | null);
}
