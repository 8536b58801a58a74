import { useEffect, useRef } from 'preact/hooks';
import uPlot from 'uplot';
import 'uplot/dist/uPlot.min.css';
import { clockTime, display, shortDay } from '../../common/format.ts';
import type { ChartColumns } from './chartColumns.ts';
import type { ChartWindow } from './chartWindow.ts';
import { dragPlot } from './dragPlot.ts';
import { type ChartMarks, drawMarks } from './drawMarks.ts';

interface PlotProps {
  readonly columns: ChartColumns;
  readonly shown: ChartWindow;
  readonly marks: ChartMarks;
  readonly label: string;
  readonly onMoved: (byShare: number) => void;
}

/** Room above the highest and below the lowest of what is drawn, in either unit. */
const margin = 5;

/** The curves on a canvas. Made once for a set of channels; new readings and a moved window only draw it again. */
export function Plot({ columns, shown, marks, label, onMoved }: PlotProps) {
  const host = useRef<HTMLDivElement>(null);
  const plot = useRef<uPlot | null>(null);
  const latest = useRef({ columns, marks, onMoved });
  latest.current = { columns, marks, onMoved };
  const kind = columns.lines.map(({ label: name }) => name).join();
  useEffect(() => {
    const element = host.current!;
    const made = new uPlot(optionsFor(element, latest), columns.data as uPlot.AlignedData, element);
    plot.current = made;
    const still = dragPlot(made, (byShare) => latest.current.onMoved(byShare));
    const resize = new ResizeObserver(() =>
      made.setSize({ width: element.clientWidth, height: heightFor(element) }),
    );
    resize.observe(element);
    return () => {
      still();
      resize.disconnect();
      made.destroy();
      plot.current = null;
    };
  }, [kind, display.value.unit]);
  useEffect(() => {
    plot.current?.setData(columns.data as uPlot.AlignedData, false);
    plot.current?.setScale('x', { min: shown.fromMs / 1000, max: shown.toMs / 1000 });
  }, [columns, kind, shown.fromMs, shown.toMs, marks]);
  return <div class="plot" ref={host} role="img" aria-label={label} />;
}

const heightFor = (element: HTMLElement) => Math.min(380, Math.max(220, element.clientWidth * 0.5));

function optionsFor(
  element: HTMLElement,
  latest: { readonly current: { readonly columns: ChartColumns; readonly marks: ChartMarks } },
): uPlot.Options {
  const { timeZone, unit } = display.value;
  const range = (): uPlot.Range.MinMax => {
    const { columns, marks } = latest.current;
    return [Math.min(0, columns.lowest - margin), Math.max(marks.limit ?? 0, columns.highest) + margin];
  };
  return {
    width: element.clientWidth,
    height: heightFor(element),
    tzDate: (seconds) => uPlot.tzDate(new Date(seconds * 1000), timeZone),
    // One height for all that was fetched: curves that jump up and down while they are pulled cannot be read.
    scales: { x: { auto: false }, y: { auto: true, range } },
    axes: [
      { space: 70, values: (_plot, seconds) => seconds.map(axisTime) },
      { label: unit, labelSize: 18, size: 44 },
    ],
    series: [{ label: 'time' }, ...latest.current.columns.lines],
    hooks: { draw: [(drawn) => drawMarks(drawn, latest.current.marks)] },
    cursor: { drag: { x: false, y: false } },
    legend: { show: false },
  };
}

/** Midnights by their date, other ticks by their time, in the yard's zone. */
function axisTime(seconds: number): string {
  const time = clockTime(seconds * 1000);
  return time === '00:00' ? shortDay(seconds * 1000) : time;
}
