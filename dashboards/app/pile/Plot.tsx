import { useEffect, useRef, useState } from 'preact/hooks';
import uPlot from 'uplot';
import 'uplot/dist/uPlot.min.css';
import type { JournalEntryView } from '../../../shared/api/types.ts';
import { clockTime, display, shortDay } from '../../common/format.ts';
import type { ChartColumns } from './chartColumns.ts';
import type { ChartWindow } from './chartWindow.ts';
import { dragPlot } from './dragPlot.ts';
import { type ChartMarks, drawBands, drawMarks } from './drawMarks.ts';
import { type Area, Marks } from './Marks.tsx';

interface PlotProps {
  readonly columns: ChartColumns;
  readonly shown: ChartWindow;
  readonly marks: ChartMarks;
  /** The y axis reaches to here at least. */
  readonly reach: number;
  /** Marked by an upright line; null: none. */
  readonly momentMs: number | null;
  readonly journal: readonly JournalEntryView[];
  readonly label: string;
  readonly onMoved: (byShare: number) => void;
  readonly onMoment: (momentMs: number) => void;
}

type Latest = Pick<PlotProps, 'columns' | 'marks' | 'reach' | 'onMoved' | 'onMoment'>;

/** Room above the highest and below the lowest of what is drawn, in either unit. */
const margin = 5;

/** The curves on a canvas. Made once for a set of channels; new readings and a moved window only draw it again. */
export function Plot(props: PlotProps) {
  const { columns, shown, marks, reach, momentMs, label, onMoved, onMoment } = props;
  const host = useRef<HTMLDivElement>(null);
  const plot = useRef<uPlot | null>(null);
  const pointer = useRef<HTMLElement | null>(null);
  const row = useRef<HTMLDivElement>(null);
  const latest = useRef<Latest>(props);
  latest.current = { columns, marks, reach, onMoved, onMoment };
  const [area, setArea] = useState<Area | null>(null);
  const kind = columns.lines.map(({ label: name }) => name).join();
  useEffect(() => {
    const element = host.current!;
    const made = new uPlot(optionsFor(element, latest), columns.data as uPlot.AlignedData, element);
    plot.current = made;
    pointer.current = document.createElement('div');
    pointer.current.className = 'moment-line';
    made.over.append(pointer.current);
    const still = dragPlot(made, {
      onMoved: (byShare) => latest.current.onMoved(byShare),
      onDragged: (pixels) => row.current?.style.setProperty('transform', `translateX(${pixels}px)`),
      onTapped: (pixels) => latest.current.onMoment(made.posToVal(pixels, 'x') * 1000),
    });
    const measure = () => setArea({ left: made.over.offsetLeft, width: made.over.clientWidth });
    const resize = new ResizeObserver(() => {
      made.setSize({ width: element.clientWidth, height: heightFor(element) });
      measure();
    });
    resize.observe(element);
    measure();
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
  useEffect(() => {
    if (pointer.current === null || plot.current === null) return;
    pointer.current.hidden = momentMs === null;
    if (momentMs !== null)
      pointer.current.style.transform = `translateX(${plot.current.valToPos(momentMs / 1000, 'x')}px)`;
  }, [momentMs, kind, shown.fromMs, shown.toMs, area]);
  return (
    <>
      <Marks journal={props.journal} shown={shown} area={area} row={row} />
      <div class="plot" ref={host} role="img" aria-label={label} />
    </>
  );
}

const heightFor = (element: HTMLElement) => Math.min(380, Math.max(240, element.clientWidth * 0.5));

function optionsFor(element: HTMLElement, latest: { readonly current: Latest }): uPlot.Options {
  const { timeZone, unit } = display.value;
  const range = (): uPlot.Range.MinMax => {
    const { columns, marks, reach } = latest.current;
    const ahead = marks.forecast === null ? 0 : Math.max(...marks.forecast.high);
    return [Math.min(0, columns.lowest - margin), Math.max(reach, columns.highest, ahead) + margin];
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
    series: [{}, ...latest.current.columns.lines],
    hooks: {
      drawClear: [(drawn) => drawBands(drawn, latest.current.marks)],
      draw: [(drawn) => drawMarks(drawn, latest.current.marks)],
    },
    cursor: { drag: { x: false, y: false } },
    legend: { show: false },
  };
}

/** Midnights by their date, other ticks by their time, in the yard's zone. */
function axisTime(seconds: number): string {
  const time = clockTime(seconds * 1000);
  return time === '00:00' ? shortDay(seconds * 1000) : time;
}
