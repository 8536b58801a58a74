import { useEffect, useMemo, useState } from 'preact/hooks';
import type { PilePage, SeriesView } from '../../../shared/api/types.ts';
import { api } from '../../common/api.ts';
import { dayAndTime, display } from '../../common/format.ts';
import { serverNowMs } from '../../common/live.ts';
import { failureText } from '../session.ts';
import { chartColumns } from './chartColumns.ts';
import { type ChartWindow, fetchedAround, isCovered, moved, stepFor, windowEndingAt } from './chartWindow.ts';
import type { ChartMarks } from './drawMarks.ts';
import { Legend } from './Legend.tsx';
import { Plot } from './Plot.tsx';

const hourMs = 3_600_000;
const spans = [
  [1, '1 day'],
  [7, '7 days'],
  [30, '30 days'],
  [0, 'whole life'],
] as const;

/** Points a channel, over three times what is shown. */
const mostPoints = 3000;

/** The pile's course: every position's temperature, with the limit and the journal marks drawn in; pulled through time. */
export function Chart({ page }: { readonly page: PilePage }) {
  const { pile, status } = page;
  const [days, setDays] = useState(7);
  /** Null while the chart follows the present. */
  const [parked, setParked] = useState<ChartWindow | null>(null);
  const nowMs = serverNowMs.peek();
  const shown = parked ?? windowEndingAt(nowMs, days, pile.startedMs);
  const { series, failure } = useSeries(pile.id, shown, status?.assessedMs ?? null);
  const columns = useMemo(
    () => (series === null ? null : chartColumns(series, display.value.unit)),
    [series, display.value.unit],
  );
  const marks = useMemo(
    () => marksOf(page, display.value.unit),
    [page.limits, page.journal, display.value.unit],
  );
  const move = (byShare: number) => {
    const to = moved(shown, byShare, pile.startedMs, serverNowMs.peek());
    setParked(to.toMs >= serverNowMs.peek() - 1000 ? null : to);
  };
  const choose = (chosen: number) => {
    setDays(chosen);
    setParked(null);
  };
  return (
    <section aria-labelledby="course-title">
      <h2 id="course-title">Course</h2>
      <div class="buttons">
        {spans.map(([value, label]) => (
          <button
            key={value}
            type="button"
            class="quiet"
            aria-pressed={days === value}
            onClick={() => choose(value)}
          >
            {label}
          </button>
        ))}
        <button type="button" class="quiet" onClick={() => move(-0.5)}>
          Earlier
        </button>
        <button type="button" class="quiet" disabled={parked === null} onClick={() => move(0.5)}>
          Later
        </button>
        <button type="button" class="quiet" disabled={parked === null} onClick={() => setParked(null)}>
          Now
        </button>
      </div>
      {failure && <p class="wrong">{failure}</p>}
      {columns && (
        <>
          <Plot columns={columns} shown={shown} marks={marks} label={spoken(series!, shown)} onMoved={move} />
          <Legend lines={columns.lines} />
          <p class="hint">
            Red dashes: too-hot limit. Upright lines: journal entries. Gaps: no good readings. Pull the curves
            sideways to go back in time.
          </p>
        </>
      )}
    </section>
  );
}

/** Curves around the shown window; fetched again when it leaves what is there, changes its step, or the pile was judged. */
function useSeries(pileId: string, shown: ChartWindow, assessedMs: number | null) {
  const [series, setSeries] = useState<SeriesView | null>(null);
  const [failure, setFailure] = useState<string | null>(null);
  const step = stepFor(shown);
  const nowMs = serverNowMs.peek();
  const covered = series !== null && series.step === step && isCovered(shown, series, nowMs);
  // New readings only matter to who looks at the newest.
  const following = shown.toMs >= nowMs - 1000;
  const width = Math.round((shown.toMs - shown.fromMs) / hourMs);
  const why = following ? `${width} h, judged ${assessedMs}` : covered ? 'covered' : `from ${shown.fromMs}`;
  useEffect(() => {
    if (why === 'covered') return;
    const { fromMs, toMs } = fetchedAround(shown, serverNowMs.peek());
    const path = `/api/piles/${encodeURIComponent(pileId)}/series?fromMs=${fromMs}&toMs=${toMs}&step=${step}&maxPoints=${mostPoints}&quality=good`;
    let wanted = true;
    api.get<SeriesView>(path).then(
      (answer) => {
        if (!wanted) return;
        setSeries(answer);
        setFailure(null);
      },
      (error) => setFailure(failureText(error)),
    );
    return () => {
      wanted = false;
    };
  }, [pileId, step, why]);
  return { series, failure };
}

const ceiling = { condition: 'too-hot-ceiling', parameter: 'limitCelsius' };

function marksOf(page: PilePage, unit: 'C' | 'F'): ChartMarks {
  const condition = page.limits.conditions.find((candidate) => candidate.condition === ceiling.condition);
  const value = condition?.parameters.find(({ key }) => key === ceiling.parameter)?.value;
  const limit = typeof value !== 'number' ? null : unit === 'F' ? value * 1.8 + 32 : value;
  return { limit, seconds: page.journal.map(({ timeMs }) => timeMs / 1000) };
}

function spoken(series: SeriesView, { fromMs, toMs }: ChartWindow): string {
  const temperatures = series.channels.filter(({ quantity }) => quantity === 'temperature');
  const positions = [...new Set(temperatures.map(({ position }) => position))];
  return `Curves of ${positions.join(', ')} temperature from ${dayAndTime(fromMs)} to ${dayAndTime(toMs)}`;
}
