import { positionWords } from '../../../common/words.ts';
import { text } from '../words.ts';
import { Bubble } from './Bubble.tsx';
import type { PileShape, Spot } from './pileShape.ts';
import type { PointAt } from './pointsAt.ts';

interface FromAboveProps {
  readonly pile: PileShape;
  readonly points: readonly PointAt[];
  readonly spots: readonly Spot[];
}

const size = 200;
const margin = 18;

/** The pile from above: its outline, channels, where the cut runs, and the probes by the cut's numbers. */
export function FromAbove({ pile, points, spots }: FromAboveProps) {
  const scale = (size - 2 * margin) / 2 / Math.max(pile.halfWidth, pile.halfLength);
  const [across, along] = [pile.halfWidth * scale, pile.halfLength * scale];
  const half = Math.max(along + margin, 60);
  const places = points.map(({ position }, index) => `${index + 1} ${positionWords[position]}`).join(', ');
  const channels = pile.channels.length;
  const angle = pile.isRound ? Math.atan2(pile.core.y, pile.core.x) : 0;
  const [dx, dy] = [Math.cos(angle) * (across + 12), -Math.sin(angle) * (across + 12)];
  const cutY = pile.isRound ? 0 : -pile.core.y * scale;
  return (
    <figure class="from-above">
      <figcaption>{text.above}</figcaption>
      <svg
        viewBox={`${-size / 2} ${-half} ${size} ${2 * half}`}
        role="img"
        aria-label={channels === 0 ? text.aboveWith(places) : text.aboveWithChannels(channels, places)}
      >
        {pile.isRound ? (
          <circle r={across} class={`pile-plan ${pile.wall}`} />
        ) : (
          <rect
            x={-across}
            y={-along}
            width={2 * across}
            height={2 * along}
            rx={pile.profile === 'heap' ? across * 0.6 : 2}
            class={`pile-plan ${pile.wall}`}
          />
        )}
        <path class="cut-along" d={`M${-dx} ${cutY - dy} L${dx} ${cutY + dy}`} />
        {pile.channels.map(({ x, y, radius }) => (
          <circle
            key={`${x} ${y}`}
            class="air-channel"
            cx={x * scale}
            cy={-y * scale}
            r={Math.max(3, radius * scale)}
          />
        ))}
        {points.map((point, index) => (
          <Bubble
            key={point.placementId}
            x={spots[index]!.x * scale}
            y={-spots[index]!.y * scale}
            number={index + 1}
            point={point}
          />
        ))}
      </svg>
    </figure>
  );
}
