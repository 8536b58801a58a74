import { duration, temperature } from '../../../common/format.ts';
import { measures, positionWords, words } from '../../../common/words.ts';
import { standingWords, text } from '../words.ts';
import { Bubble } from './Bubble.tsx';
import { HeatField } from './HeatField.tsx';
import { cutChannels, type PileShape, type Spot, surfaceAt } from './pileShape.ts';
import type { PointAt } from './pointsAt.ts';
import { spreadLabels } from './spreadLabels.ts';

interface CutProps {
  readonly pile: PileShape;
  readonly points: readonly PointAt[];
  readonly spots: readonly Spot[];
  readonly momentMs: number;
}

const width = 372;
const room = { across: 146, up: 180 } as const;
/** Room for a label at each side. */
const labelWidth = 108;
const head = 34;
const foot = 34;
const labelGap = 38;

/** The pile cut through: colours, air channels, every probe's tip at its depth, its number and temperature beside. */
export function Cut({ pile, points, spots, momentMs }: CutProps) {
  const scale = Math.min(room.across / (2 * pile.halfWidth), room.up / pile.wallHeight);
  const middle = width / 2;
  const ground = head + Math.max(pile.wallHeight * scale, 120);
  const height = ground + foot;
  const px = (across: number) => middle + across * scale;
  const py = (up: number) => ground - up * scale;
  const tips = spots.map(({ across, up }) => ({ x: px(across), y: py(up) }));
  const labels = spreadLabels(tips, labelGap, 18, ground - 4);
  const sources = points.flatMap(({ standing, celsius }, index) =>
    standing === 'good' && celsius !== null ? [{ ...spots[index]!, celsius }] : [],
  );
  const box = {
    left: px(-pile.halfWidth) / width,
    top: py(pile.height) / height,
    width: (2 * pile.halfWidth * scale) / width,
    height: (pile.height * scale) / height,
  };
  return (
    <figure class="cut">
      <figcaption>{text.cut}</figcaption>
      <div class="cut-picture">
        <HeatField halfWidth={pile.halfWidth} height={pile.height} sources={sources} box={box} />
        <svg viewBox={`0 0 ${width} ${height}`} role="img" aria-label={spoken(points)}>
          <Outline pile={pile} px={px} py={py} />
          {spots.map(({ across }, index) => (
            <path
              key={points[index]!.placementId}
              class="stem"
              d={`M${tips[index]!.x} ${py(surfaceAt(pile, across)) - 8} V${tips[index]!.y}`}
            />
          ))}
          {labels.map(({ index, side, y }) => {
            const { x, y: tipY } = tips[index]!;
            const inner = side === 'left' ? labelWidth - 4 : width - labelWidth + 4;
            return <path key={index} class="leader" d={`M${inner} ${y} L${x} ${tipY}`} />;
          })}
          {points.map((point, index) => (
            <Bubble key={point.placementId} {...tips[index]!} number={index + 1} point={point} />
          ))}
          {labels.map(({ index, side, y }) => (
            <Label
              key={index}
              point={points[index]!}
              number={index + 1}
              side={side}
              y={y}
              momentMs={momentMs}
            />
          ))}
          <ScaleBar x={middle} y={ground + 20} scale={scale} />
        </svg>
      </div>
    </figure>
  );
}

interface OutlineProps {
  readonly pile: PileShape;
  readonly px: (across: number) => number;
  readonly py: (up: number) => number;
}

/** The heap's edge (what lies outside it covers the colours), walls, channels and ground. */
function Outline({ pile, px, py }: OutlineProps) {
  const { halfWidth, height, wallHeight, wall, profile } = pile;
  const [left, right, top, floor] = [px(-halfWidth), px(halfWidth), py(height), py(0)];
  const [rx, ry] = [right - px(0), floor - top];
  return (
    <>
      {profile === 'heap' && (
        <>
          <path
            class="outside"
            d={`M${left - 1} ${top - 1} H${right + 1} V${floor} H${right} A${rx} ${ry} 0 0 0 ${left} ${floor} H${left - 1} Z`}
          />
          <path class="heap-edge" d={`M${left} ${floor} A${rx} ${ry} 0 0 1 ${right} ${floor}`} />
        </>
      )}
      {cutChannels(pile).map(({ left: from, right: to, isCut }) => (
        <rect
          key={`${from} ${to}`}
          class={isCut ? 'air-channel' : 'air-channel behind'}
          x={px(from)}
          y={top - 12}
          width={px(to) - px(from)}
          height={floor - top + 12}
        />
      ))}
      {wall !== 'none' && (
        <path
          class={`pile-wall ${wall}`}
          d={`M${left} ${py(wallHeight)} V${floor} M${right} ${py(wallHeight)} V${floor}`}
        />
      )}
      <path class="ground-line" d={`M${left - 10} ${floor} H${right + 10}`} />
    </>
  );
}

interface LabelProps {
  readonly point: PointAt;
  readonly number: number;
  readonly side: 'left' | 'right';
  readonly y: number;
  readonly momentMs: number;
}

function Label({ point, number, side, y, momentMs }: LabelProps) {
  const { standing, celsius, timeMs, position, depthMetres } = point;
  const x = side === 'left' ? 0 : width;
  const anchor = side === 'left' ? 'start' : 'end';
  const where =
    depthMetres === null
      ? positionWords[position]
      : text.placed(positionWords[position], measures.metres(depthMetres.toFixed(2)));
  const doubt = standing === 'old' ? text.oldFor(duration(momentMs - timeMs!)) : standingWords[standing];
  return (
    <g class="point-label" text-anchor={anchor}>
      <text x={x} y={y - 1} font-size={standing === 'good' ? 17 : 13} font-weight="700">
        {standing === 'good' && celsius !== null ? temperature(celsius) : doubt}
      </text>
      <text x={x} y={y + 13} font-size="12">
        {number} {where}
      </text>
    </g>
  );
}

function ScaleBar({ x, y, scale }: { readonly x: number; readonly y: number; readonly scale: number }) {
  const metres = [0.2, 0.5, 1, 2].findLast((each) => each * scale <= 90) ?? 0.2;
  const half = (metres * scale) / 2;
  return (
    <g class="scale">
      <path
        d={`M${x - half} ${y - 4} V${y + 4} M${x - half} ${y} H${x + half} M${x + half} ${y - 4} V${y + 4}`}
      />
      <text x={x + half + 6} y={y + 4} font-size="12">
        {measures.metres(metres)}
      </text>
    </g>
  );
}

function spoken(points: readonly PointAt[]): string {
  if (points.length === 0) return text.cutWith(words.noProbe);
  return text.cutWith(points.map((point, index) => `${index + 1} ${saidOf(point)}`).join(', '));
}

/** "core at 0.60 m", or "core" where nobody said how deep. */
export function whereOf({ position, depthMetres }: Pick<PointAt, 'position' | 'depthMetres'>): string {
  const name = positionWords[position];
  return depthMetres === null ? name : text.at(name, measures.metres(depthMetres.toFixed(2)));
}

/** "core at 0.60 m 64.2 C", or why there is no number. */
export function saidOf({ position, depthMetres, standing, celsius }: PointAt): string {
  return `${whereOf({ position, depthMetres })} ${standing === 'good' && celsius !== null ? temperature(celsius) : standingWords[standing]}`;
}
