import { useEffect, useRef, useState } from 'preact/hooks';
import type { LimitCondition, LimitParameter } from '../../../shared/api/types.ts';
import type { ReplayOutcome } from '../../../shared/rules/replayJob.ts';
import { dayAndTime, display, shortDay } from '../../common/format.ts';
import { journalWords } from '../../common/words.ts';
import { dayTicks, type Scale, valueTicks, verticalEnds, xAt, yAt } from './chartScale.ts';
import type { Curve, CurvePoint } from './curve.ts';
import { Lanes } from './Lanes.tsx';
import { LimitLine } from './LimitLine.tsx';
import { fromShown, levelOf, toShown, unitShown } from './showing.ts';
import { type Trial, valueIn } from './trial.ts';
import type { HeldPast } from './usePast.ts';
import { limitWords } from './words.ts';

interface LimitChartProps {
  readonly condition: LimitCondition;
  readonly held: HeldPast;
  readonly inForce: Trial;
  readonly trial: Trial;
  readonly outcome: ReplayOutcome | null;
  readonly onChange: (parameter: LimitParameter, value: number) => void;
}

/** Left gutter for the numbers of the scale, in CSS pixels; the style sheet has the same. */
const gutter = 44 + 13;
/** Of the tab by which a line is pulled. */
const tabHeight = 32;

/** The pile's own past with the limit across it, to be pulled, and below when this alarm stood: as it is and on trial. */
export function LimitChart({ condition, held, inForce, trial, outcome, onChange }: LimitChartProps) {
  const { unit } = display.value;
  const host = useRef<HTMLDivElement>(null);
  const size = useSize(host);
  const levels = condition.parameters.filter((one) => levelOf(one) !== null);
  const quantity = levels.length > 0 ? levelOf(levels[0]!)! : 'heat';
  const curve = held.curves[quantity];
  const shape = levels[0] ?? { key: 'limitCelsius', unit: 'C' };
  const numbers = (of: Trial) =>
    levels.map((one) => valueIn(of, condition.condition, one)).filter((one) => typeof one === 'number');
  const defaults = levels.map((one) => one.default).filter((one) => typeof one === 'number');
  const [bottom, top] = verticalEnds(
    curve,
    [...numbers(inForce), ...numbers(trial), ...defaults],
    quantity === 'moisture',
  );
  const scale: Scale = { fromMs: held.fromMs, toMs: held.toMs, bottom, top, ...size };
  /** Whether a line's tab would lie on that of a line at this value. */
  const near = (other: LimitParameter, value: number) => {
    const at = valueIn(trial, condition.condition, other);
    return typeof at === 'number' && Math.abs(yAt(scale, at) - yAt(scale, value)) < tabHeight;
  };
  return (
    <div class="limit-chart" ref={host}>
      <div class="limit-plot" style={{ height: `${size.height}px` }}>
        <svg
          width={size.width}
          height={size.height + 22}
          role="img"
          aria-label={limitWords.chart(condition.name, shortDay(held.fromMs), shortDay(held.toMs))}
        >
          <Grid scale={scale} shape={shape} />
          <Troubles scale={scale} outcome={outcome} />
          <Journal scale={scale} held={held} />
          {curve.map((run) => (
            <Run key={run[0]!.atMs} run={run} scale={scale} />
          ))}
          {levels.map((one) => (
            <Standing
              key={one.key}
              scale={scale}
              now={valueIn(inForce, condition.condition, one)}
              own={one.default}
              tried={valueIn(trial, condition.condition, one)}
            />
          ))}
        </svg>
        {levels.map((one, index) => {
          const value = valueIn(trial, condition.condition, one);
          return typeof value !== 'number' ? null : (
            <LimitLine
              key={one.key}
              parameter={one}
              value={value}
              scale={scale}
              aside={levels.slice(0, index).filter((other) => near(other, value)).length}
              onChange={(next) => onChange(one, next)}
            />
          );
        })}
      </div>
      {endsEmpty(curve) && <p class="hint no-curve">{limitWords.noCurve[quantity]}</p>}
      <Lanes scale={scale} condition={condition.condition} outcome={outcome} />
      <p class="hint">
        {levels.length > 0 ? limitWords.dragHint : limitWords.noLine} {unitHint(shape, unit)}
      </p>
    </div>
  );
}

const endsEmpty = (curve: Curve): boolean => curve.length === 0;

const unitHint = (shape: { key: string; unit: string }, unit: 'C' | 'F'): string =>
  limitWords.chartKey(unitShown(shape, unit));

/** Width of the plot, followed as the window changes. */
function useSize(host: { readonly current: HTMLDivElement | null }) {
  const [size, setSize] = useState({ width: 600, height: 300 });
  useEffect(() => {
    const element = host.current!;
    const measure = () => {
      const width = Math.max(160, element.clientWidth - gutter);
      setSize({ width, height: Math.round(Math.min(340, Math.max(220, width * 0.42))) });
    };
    const watch = new ResizeObserver(measure);
    watch.observe(element);
    measure();
    return () => watch.disconnect();
  }, []);
  return size;
}

function Grid({
  scale,
  shape,
}: {
  readonly scale: Scale;
  readonly shape: Pick<LimitParameter, 'key' | 'unit'>;
}) {
  const { unit } = display.value;
  const shown = (value: number) => toShown(shape, value, unit);
  return (
    <g class="limit-grid">
      {valueTicks(shown(scale.bottom), shown(scale.top), scale.height).map((tick) => {
        const y = yAt(scale, fromShown(shape, tick, unit));
        return (
          <g key={tick}>
            <path d={`M0 ${y} H${scale.width}`} />
            <text x="-8" y={y + 4} text-anchor="end">
              {tick}
            </text>
          </g>
        );
      })}
      {dayTicks(scale).map((atMs) => (
        <g key={atMs}>
          <path d={`M${xAt(scale, atMs)} 0 V${scale.height}`} />
          <text x={Math.min(scale.width - 18, xAt(scale, atMs))} y={scale.height + 17} text-anchor="middle">
            {shortDay(atMs)}
          </text>
        </g>
      ))}
    </g>
  );
}

/** What plain rules call trouble, whatever the limits are: shaded, so that an alarm before it can be seen to be one. */
function Troubles({ scale, outcome }: { readonly scale: Scale; readonly outcome: ReplayOutcome | null }) {
  return (
    <g class="limit-troubles">
      {outcome?.troubles
        .filter(({ endMs }) => endMs > scale.fromMs)
        .map(({ name, startMs, endMs }) => (
          <rect
            key={`${name} ${startMs}`}
            x={Math.max(0, xAt(scale, startMs))}
            y="0"
            width={Math.max(2, xAt(scale, endMs) - Math.max(0, xAt(scale, startMs)))}
            height={scale.height}
          >
            <title>{`${name}, ${dayAndTime(startMs)}`}</title>
          </rect>
        ))}
    </g>
  );
}

/** When somebody worked on the pile: a notch from below. */
function Journal({ scale, held }: { readonly scale: Scale; readonly held: HeldPast }) {
  return (
    <g class="limit-journal">
      {held.journal
        .filter(({ timeMs }) => timeMs >= scale.fromMs && timeMs <= scale.toMs)
        .map(({ id, kind, timeMs }) => (
          <path key={id} d={`M${xAt(scale, timeMs)} ${scale.height} v-12`}>
            <title>{`${journalWords[kind]}, ${dayAndTime(timeMs)}`}</title>
          </path>
        ))}
    </g>
  );
}

function Run({ run, scale }: { readonly run: readonly CurvePoint[]; readonly scale: Scale }) {
  const point = (atMs: number, value: number) =>
    `${xAt(scale, atMs).toFixed(1)} ${yAt(scale, value).toFixed(1)}`;
  const upper = run.map(({ atMs, highest }) => point(atMs, highest));
  const lower = run.map(({ atMs, lowest }) => point(atMs, lowest));
  return (
    <g class="limit-run">
      <path class="limit-band" d={`M${[...upper, ...lower.toReversed()].join('L')}Z`} />
      <path class="limit-curve" d={`M${upper.join('L')}`} />
    </g>
  );
}

interface StandingProps {
  readonly scale: Scale;
  readonly now: unknown;
  readonly own: unknown;
  readonly tried: unknown;
}

/** Where the line is in force and where the method has it, when it is on trial somewhere else. */
function Standing({ scale, now, own, tried }: StandingProps) {
  const line = (value: unknown, kind: string, words: string, x: number) => {
    if (typeof value !== 'number' || value === tried) return null;
    const y = yAt(scale, value);
    return (
      <g class={`limit-standing ${kind}`}>
        <path d={`M0 ${y} H${scale.width}`} />
        <text x={scale.width - x} y={y - 4} text-anchor="end">
          {words}
        </text>
      </g>
    );
  };
  return (
    <>
      {line(now, 'is-now', limitWords.inForce, 6)}
      {own === now ? null : line(own, 'is-own', limitWords.methods, 70)}
    </>
  );
}
