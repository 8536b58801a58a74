import type { ChartLine } from './chartColumns.ts';
import { bandLooks } from './drawMarks.ts';
import { text } from './words.ts';

interface LegendProps {
  readonly lines: readonly ChartLine[];
  readonly expected: 'plan' | 'method' | null;
  readonly hasForecast: boolean;
}

/** Which line is which, by a piece of the line itself: its dashes tell it apart where colours do not. */
export function Legend({ lines, expected, hasForecast }: LegendProps) {
  return (
    <ul class="legend">
      {lines.map(({ label, stroke, width, dash }) => (
        <li key={label}>
          <svg viewBox="0 0 34 10" width="34" height="10" aria-hidden="true">
            <path d="M1 5 H33" stroke={stroke} stroke-width={width} stroke-dasharray={dash?.join(' ')} />
          </svg>{' '}
          {label}
        </li>
      ))}
      {expected && (
        <li>
          <Swatch look={bandLooks.expected} /> {expected === 'plan' ? text.plannedBand : text.usualBand}
        </li>
      )}
      {hasForecast && (
        <li>
          <Swatch look={bandLooks.forecast} /> {text.forecastBand}
        </li>
      )}
    </ul>
  );
}

function Swatch({ look }: { readonly look: (typeof bandLooks)[keyof typeof bandLooks] }) {
  return (
    <svg viewBox="0 0 34 14" width="34" height="14" aria-hidden="true">
      <rect
        x="1"
        y="1"
        width="32"
        height="12"
        fill={look.fill}
        stroke={look.edge}
        stroke-dasharray={look.dash.join(' ')}
      />
    </svg>
  );
}
