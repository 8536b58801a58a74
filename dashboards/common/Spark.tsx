import type { SparkHour } from '../../shared/api/types.ts';
import { hourMs, unbroken } from './sparkRuns.ts';

interface SparkProps {
  readonly hours: readonly SparkHour[];
  readonly nowMs: number;
}

const span = 48;

/** Core over the last 48 hours as a band from lowest to highest with its mean; hours without readings stay empty. */
export function Spark({ hours, nowMs }: SparkProps) {
  const lowest = Math.min(...hours.map(({ min }) => min));
  const highest = Math.max(...hours.map(({ max }) => max));
  const padding = Math.max(1, (4 - (highest - lowest)) / 2);
  const x = (startMs: number) => 100 + ((startMs + hourMs / 2 - nowMs) / hourMs / span) * 100;
  const y = (celsius: number) =>
    28 - ((celsius - (lowest - padding)) / (highest - lowest + 2 * padding)) * 26;
  const runs = unbroken(hours);
  return (
    <svg class="spark" viewBox="0 0 100 30" preserveAspectRatio="none" aria-hidden="true">
      {runs.map((run) => (
        <g key={run[0]!.startMs}>
          <path
            d={`M${[...run.map((hour) => `${x(hour.startMs)} ${y(hour.max)}`), ...run.toReversed().map((hour) => `${x(hour.startMs)} ${y(hour.min)}`)].join('L')}Z`}
            fill="var(--line)"
          />
          <path
            d={`M${run.map((hour) => `${x(hour.startMs)} ${y(hour.mean)}`).join('L')}`}
            fill="none"
            stroke="var(--ink)"
            stroke-width="1.6"
            vector-effect="non-scaling-stroke"
          />
        </g>
      ))}
      <path
        d="M0 29.5 H100 M50 27 V29.5"
        stroke="var(--strong-line)"
        stroke-width="1"
        vector-effect="non-scaling-stroke"
      />
    </svg>
  );
}
