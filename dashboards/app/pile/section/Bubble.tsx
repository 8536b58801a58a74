import { heatColour } from '../../../common/heatColour.ts';
import type { PointAt } from './pointsAt.ts';

interface BubbleProps {
  readonly x: number;
  readonly y: number;
  readonly number: number;
  readonly point: PointAt;
}

/**
 * A probe's tip: its number in a ring of its colour. Dashed where its reading is old or missing, struck out where it is
 * not believed: told by shape as well.
 */
export function Bubble({ x, y, number, point }: BubbleProps) {
  const { standing, celsius } = point;
  const isGood = standing === 'good';
  return (
    <g class="bubble">
      <circle cx={x} cy={y} r="12" fill="var(--card)" stroke="none" />
      <circle
        cx={x}
        cy={y}
        r="10"
        fill="var(--card)"
        stroke={isGood ? heatColour(celsius) : 'var(--strong-line)'}
        stroke-width="4"
        stroke-dasharray={isGood ? undefined : '3 3'}
      />
      <circle cx={x} cy={y} r="12" fill="none" stroke="var(--ink)" stroke-width="1" />
      <text x={x} y={y + 4} font-size="12" font-weight="700" text-anchor="middle">
        {number}
      </text>
      {standing === 'not-believed' && (
        <path d={`M${x - 12} ${y + 12} L${x + 12} ${y - 12}`} stroke="var(--ink)" stroke-width="2.5" />
      )}
    </g>
  );
}
