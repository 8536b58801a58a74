import { useEffect, useRef } from 'preact/hooks';
import uPlot from 'uplot';
import 'uplot/dist/uPlot.min.css';
import type { CourseAnswer } from '../../../shared/compost/planner/predictCourse.ts';
import { display, temperature, temperatureNumber } from '../../common/format.ts';
import { measures } from '../../common/words.ts';
import { heatWords } from './heatWords.ts';

export interface PlottedCourse {
  readonly label: string;
  readonly answer: CourseAnswer;
}

interface CoursePlotProps {
  readonly courses: readonly PlottedCourse[];
}

/** Told apart by dash as well as by colour. */
const looks = [
  { stroke: '#8a3a1c', fill: 'rgba(168, 88, 48, 0.22)', dash: [] },
  { stroke: '#2b5573', fill: 'rgba(61, 88, 119, 0.22)', dash: [9, 5] },
] as const;

/** Marks drawn across: the sanitisation level and the ceiling (reference 7.3). */
const markCelsius = [55, 71] as const;

/** Predicted core temperature over days, each course a line in its band. */
export function CoursePlot({ courses }: CoursePlotProps) {
  const host = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const element = host.current!;
    const plot = new uPlot(options(element.clientWidth, courses), columns(courses), element);
    const resize = new ResizeObserver(() =>
      plot.setSize({ width: element.clientWidth, height: plot.height }),
    );
    resize.observe(element);
    return () => {
      resize.disconnect();
      plot.destroy();
    };
  }, [courses.map(({ answer }) => answer), courses.length].flat());
  const [low, high] = markCelsius.map((celsius) => temperature(celsius, 0)) as [string, string];
  return (
    <>
      <div class="plot" ref={host} role="img" aria-label={spoken(courses)} />
      <p class="hint">
        {courses.length === 1
          ? heatWords.oneLine(low, high)
          : heatWords.twoLines(courses[0]!.label, courses[1]!.label, low, high)}
      </p>
    </>
  );
}

function shown(celsius: number): number {
  return Number(temperatureNumber(celsius, 2));
}

function columns(courses: readonly PlottedCourse[]): uPlot.AlignedData {
  const { answer } = courses[0]!;
  const days = Array.from(answer.middle, (_, row) => row * answer.stepDays);
  const lines = courses.flatMap(({ answer: { low, middle, high } }) =>
    [low, middle, high].map((values) => Array.from(values, shown)),
  );
  return [days, ...lines];
}

function options(width: number, courses: readonly PlottedCourse[]): uPlot.Options {
  const series = courses.flatMap(({ label }, index): uPlot.Series[] => {
    const look = looks[index]!;
    const edge: uPlot.Series = { stroke: 'transparent', width: 0, points: { show: false } };
    return [
      { ...edge, label: heatWords.lowOf(label) },
      { label, stroke: look.stroke, width: 2.5, dash: [...look.dash], points: { show: false } },
      { ...edge, label: heatWords.highOf(label) },
    ];
  });
  return {
    width,
    height: Math.min(360, Math.max(230, width * 0.45)),
    scales: { x: { time: false }, y: { range: [shown(0), shown(85)] } },
    axes: [
      { space: 60, values: (_plot, days) => days.map(measures.days) },
      { label: display.value.unit, labelSize: 18, size: 44 },
    ],
    series: [{}, ...series],
    bands: courses.map((_, index) => ({ series: [index * 3 + 3, index * 3 + 1], fill: looks[index]!.fill })),
    hooks: { draw: [drawMarks] },
    legend: { show: false },
    cursor: { show: false },
  };
}

function drawMarks(plot: uPlot): void {
  const { ctx, bbox } = plot;
  ctx.save();
  ctx.strokeStyle = '#53584b';
  ctx.setLineDash([2, 5]);
  ctx.lineWidth = 1.5;
  for (const celsius of markCelsius) {
    const y = plot.valToPos(shown(celsius), 'y', true);
    ctx.beginPath();
    ctx.moveTo(bbox.left, y);
    ctx.lineTo(bbox.left + bbox.width, y);
    ctx.stroke();
  }
  ctx.restore();
}

function spoken(courses: readonly PlottedCourse[]): string {
  const said = courses.map(({ label, answer }) =>
    heatWords.lineSays(label, temperature(answer.peakCelsius.middle, 0), Math.round(answer.peakDay)),
  );
  const { middle, stepDays } = courses[0]!.answer;
  return heatWords.plotSays(Math.round(middle.length * stepDays), said.join('; '));
}
