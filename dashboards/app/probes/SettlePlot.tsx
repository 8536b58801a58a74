import { temperature } from '../../common/format.ts';

interface SettlePlotProps {
  readonly points: readonly { readonly timeMs: number; readonly rawCelsius: number }[];
  readonly fromMs: number;
  readonly nowMs: number;
}

const width = 320;
const height = 120;
/** Left of it stand the numbers. */
const left = 58;
const top = 8;
const bottom = height - 8;

/** The way down into the ice, with the ice point as a line; the words beside it say the same. */
export function SettlePlot({ points, fromMs, nowMs }: SettlePlotProps) {
  if (points.length < 2) return null;
  const values = points.map(({ rawCelsius }) => rawCelsius);
  const highest = Math.max(2, ...values);
  const lowest = Math.min(-2, ...values);
  const endMs = Math.max(nowMs, points.at(-1)!.timeMs);
  const x = (timeMs: number) => left + ((timeMs - fromMs) / Math.max(1, endMs - fromMs)) * (width - left - 8);
  const y = (celsius: number) => top + ((highest - celsius) / (highest - lowest)) * (bottom - top);
  const path = points.map(({ timeMs, rawCelsius }) => `${x(timeMs)} ${y(rawCelsius)}`).join('L');
  return (
    <svg class="settle" viewBox={`0 0 ${width} ${height}`} aria-hidden="true">
      <line x1={left} x2={width - 8} y1={y(0)} y2={y(0)} stroke="var(--strong-line)" stroke-dasharray="4 4" />
      <text x={left - 6} y={y(0) + 4} text-anchor="end">
        {temperature(0, 0)}
      </text>
      {y(0) - y(highest) > 16 && (
        <text x={left - 6} y={y(highest) + 8} text-anchor="end">
          {temperature(highest, 0)}
        </text>
      )}
      <path d={`M${path}`} fill="none" stroke="var(--ink)" stroke-width="2" />
      <circle cx={x(points.at(-1)!.timeMs)} cy={y(values.at(-1)!)} r="4" fill="var(--ink)" />
    </svg>
  );
}
