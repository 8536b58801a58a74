import { useMemo } from 'preact/hooks';
import type {
  ExpectedView,
  OutlookView,
  PilePage,
  SeriesView,
  TimedBandView,
} from '../../../shared/api/types.ts';
import { dayAndTime, display } from '../../common/format.ts';
import { slowNowMs } from '../../common/live.ts';
import { positionWords } from '../../common/words.ts';
import { chartColumns } from './chartColumns.ts';
import type { ChartWindow } from './chartWindow.ts';
import type { ChartMarks } from './drawMarks.ts';
import { Legend } from './Legend.tsx';
import { levelsOf } from './levels.ts';
import { Plot } from './Plot.tsx';
import { text } from './words.ts';

/** Days that can be chosen; 0: all of them. */
const spans = [1, 7, 30, 0] as const;

interface ChartProps {
  readonly page: PilePage;
  readonly outlook: OutlookView | null;
  readonly expected: ExpectedView['expected'];
  readonly days: number;
  readonly shown: ChartWindow;
  readonly series: SeriesView | null;
  readonly failure: string | null;
  readonly momentMs: number | null;
  readonly isAtNow: boolean;
  readonly onChoose: (days: number) => void;
  readonly onMoved: (byShare: number) => void;
  readonly onNow: () => void;
  readonly onMoment: (momentMs: number) => void;
}

/** The pile's course: every position's temperature between its limits and bands, with the journal's marks; pulled through time. */
export function Chart(props: ChartProps) {
  const { page, outlook, expected, days, shown, series, failure, momentMs, isAtNow } = props;
  const { unit } = display.value;
  const columns = useMemo(() => (series === null ? null : chartColumns(series, unit)), [series, unit]);
  const levels = useMemo(() => levelsOf(page.limits), [page.limits]);
  const nowMs = slowNowMs.value;
  const marks = useMemo((): ChartMarks => {
    return {
      levels: levels.map(({ celsius, ...look }) => ({ ...look, value: inUnit(celsius, unit) })),
      seconds: page.journal.map(({ timeMs }) => timeMs / 1000),
      expected: bandInUnit(expected?.band ?? null, unit),
      forecast: bandInUnit(outlook?.forecast?.path ?? null, unit),
      nowSeconds: nowMs / 1000,
    };
  }, [levels, page.journal, outlook, expected, unit, nowMs]);
  const reach = levels
    .filter(({ isAlwaysShown }) => isAlwaysShown)
    .map(({ celsius }) => inUnit(celsius, unit));
  return (
    <section aria-labelledby="course-title">
      <h2 id="course-title">{text.course}</h2>
      <div class="buttons">
        {spans.map((value) => (
          <button
            key={value}
            type="button"
            class="quiet"
            aria-pressed={days === value}
            onClick={() => props.onChoose(value)}
          >
            {text.spans[value]}
          </button>
        ))}
        <button type="button" class="quiet" onClick={() => props.onMoved(-0.5)}>
          {text.earlier}
        </button>
        <button type="button" class="quiet" disabled={isAtNow} onClick={() => props.onMoved(0.5)}>
          {text.later}
        </button>
        <button type="button" class="quiet" disabled={isAtNow} onClick={props.onNow}>
          {text.toNow}
        </button>
      </div>
      {failure && <p class="wrong">{failure}</p>}
      {columns && (
        <>
          <Plot
            {...{ columns, shown, marks, momentMs }}
            reach={Math.max(0, ...reach)}
            label={spoken(series!, shown)}
            journal={page.journal}
            onMoved={props.onMoved}
            onMoment={props.onMoment}
          />
          <Legend
            lines={columns.lines}
            expected={expected?.from ?? null}
            hasForecast={outlook?.forecast != null}
          />
          <p class="hint">{text.courseHint}</p>
        </>
      )}
    </section>
  );
}

function inUnit(celsius: number, unit: 'C' | 'F'): number {
  return unit === 'F' ? celsius * 1.8 + 32 : celsius;
}

function bandInUnit(band: TimedBandView | null, unit: 'C' | 'F'): TimedBandView | null {
  if (band === null || unit === 'C') return band;
  const shown = (values: readonly number[]) => values.map((value) => inUnit(value, unit));
  return { ...band, low: shown(band.low), middle: shown(band.middle), high: shown(band.high) };
}

function spoken(series: SeriesView, { fromMs, toMs }: ChartWindow): string {
  const temperatures = series.channels.filter(({ quantity }) => quantity === 'temperature');
  const positions = [...new Set(temperatures.map(({ position }) => positionWords[position]))];
  return text.courseSpoken(positions.join(', '), dayAndTime(fromMs), dayAndTime(toMs));
}
