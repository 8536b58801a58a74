import { useEffect, useRef, useState } from 'preact/hooks';
import uPlot from 'uplot';
import 'uplot/dist/uPlot.min.css';
import type { PilePage, SeriesView } from '../../../shared/api/types.ts';
import { api } from '../../common/api.ts';
import { clockTime, display, shortDay } from '../../common/format.ts';
import { serverNowMs } from '../../common/live.ts';
import { failureText } from '../session.ts';
import { chartColumns } from './chartColumns.ts';

const dayMs = 86_400_000;
const spans = [
  ['1', '1 day'],
  ['7', '7 days'],
  ['30', '30 days'],
  ['0', 'whole life'],
] as const;

/** The pile's course: every position's temperature, with the limit and the journal marks drawn in. */
export function Chart({ page }: { readonly page: PilePage }) {
  const [days, setDays] = useState('7');
  const [series, setSeries] = useState<SeriesView | null>(null);
  const [failure, setFailure] = useState<string | null>(null);
  useEffect(() => {
    const toMs = serverNowMs.value;
    const fromMs = days === '0' ? page.pile.startedMs : toMs - Number(days) * dayMs;
    const path = `/api/piles/${encodeURIComponent(page.pile.id)}/series?fromMs=${Math.min(fromMs, toMs - 1)}&toMs=${toMs}&maxPoints=1500&quality=good`;
    api.get<SeriesView>(path).then(
      (answer) => {
        setSeries(answer);
        setFailure(null);
      },
      (error) => setFailure(failureText(error)),
    );
  }, [days, page.pile.id, page.status?.assessedMs]);
  return (
    <section aria-labelledby="course-title">
      <h2 id="course-title">Course</h2>
      <p class="buttons">
        {spans.map(([value, label]) => (
          <button
            key={value}
            type="button"
            class="quiet"
            aria-pressed={days === value}
            onClick={() => setDays(value)}
          >
            {label}
          </button>
        ))}
      </p>
      {failure && <p class="wrong">{failure}</p>}
      {series && <Plot series={series} page={page} />}
    </section>
  );
}

interface PlotProps {
  readonly series: SeriesView;
  readonly page: PilePage;
}

const ceiling = { condition: 'too-hot-ceiling', parameter: 'limitCelsius' };

function limitOf(page: PilePage): number | null {
  const condition = page.limits.conditions.find((candidate) => candidate.condition === ceiling.condition);
  const value = condition?.parameters.find(({ key }) => key === ceiling.parameter)?.value;
  return typeof value === 'number' ? value : null;
}

function Plot({ series, page }: PlotProps) {
  const host = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const element = host.current!;
    const { timeZone, unit } = display.value;
    const columns = chartColumns(series, unit);
    const limit = limitOf(page);
    const shownLimit = limit === null ? null : unit === 'F' ? limit * 1.8 + 32 : limit;
    const plot = new uPlot(
      {
        width: element.clientWidth,
        height: Math.min(380, Math.max(220, element.clientWidth * 0.5)),
        tzDate: (seconds) => uPlot.tzDate(new Date(seconds * 1000), timeZone),
        scales: {
          y: {
            range: (_plot, low, high) => [Math.min(0, low ?? 0), Math.max(shownLimit ?? 0, high ?? 0) + 5],
          },
        },
        axes: [
          { space: 70, values: (_plot, seconds) => seconds.map(axisTime) },
          { label: unit, labelSize: 18, size: 44 },
        ],
        series: [{ label: 'time' }, ...columns.lines],
        hooks: { draw: [(drawn) => drawMarks(drawn, shownLimit, page)] },
        legend: { live: false },
      },
      columns.data as uPlot.AlignedData,
      element,
    );
    const resize = new ResizeObserver(() =>
      plot.setSize({ width: element.clientWidth, height: plot.height }),
    );
    resize.observe(element);
    return () => {
      resize.disconnect();
      plot.destroy();
    };
  }, [series]);
  return (
    <>
      <div class="plot" ref={host} role="img" aria-label={spoken(series)} />
      <p class="hint">Dashed line: too-hot limit. Upright lines: journal entries. Gaps: no good readings.</p>
    </>
  );
}

/** Midnights by their date, other ticks by their time, in the yard's zone. */
function axisTime(seconds: number): string {
  const time = clockTime(seconds * 1000);
  return time === '00:00' ? shortDay(seconds * 1000) : time;
}

/** Draws the ceiling and the journal entries over the curves. */
function drawMarks(plot: uPlot, limit: number | null, page: PilePage): void {
  const { ctx, bbox } = plot;
  ctx.save();
  ctx.strokeStyle = '#9c1622';
  ctx.setLineDash([8, 6]);
  ctx.lineWidth = 2;
  if (limit !== null) {
    const y = plot.valToPos(limit, 'y', true);
    line(ctx, bbox.left, y, bbox.left + bbox.width, y);
  }
  ctx.strokeStyle = '#7a7768';
  ctx.setLineDash([]);
  ctx.lineWidth = 1;
  for (const { timeMs } of page.journal) {
    const x = plot.valToPos(timeMs / 1000, 'x', true);
    if (x >= bbox.left && x <= bbox.left + bbox.width) line(ctx, x, bbox.top, x, bbox.top + bbox.height);
  }
  ctx.restore();
}

function line(
  context: CanvasRenderingContext2D,
  fromX: number,
  fromY: number,
  toX: number,
  toY: number,
): void {
  context.beginPath();
  context.moveTo(fromX, fromY);
  context.lineTo(toX, toY);
  context.stroke();
}

function spoken(series: SeriesView): string {
  const shown = series.channels
    .filter(({ quantity }) => quantity === 'temperature')
    .map(({ position }) => position);
  return `Curves over time of ${[...new Set(shown)].join(', ')} temperature`;
}
