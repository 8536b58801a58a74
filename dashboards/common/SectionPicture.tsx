import type { SectionPoint } from '../../shared/api/types.ts';
import type { PileMethod } from '../../shared/yard/method.ts';
import { temperature } from './format.ts';
import { heatColour } from './heatColour.ts';
import { oldAfterMs } from './old.ts';
import { positionWords, words } from './words.ts';

/** The trade's own picture: a cut through the pile, coloured by what its probes say, with channels and probe points. */
interface SectionPictureProps {
  readonly id: string;
  readonly method: PileMethod;
  readonly points: readonly SectionPoint[];
  readonly nowMs: number;
}

const width = 100;
const ground = 88;

/** Outline of the cut for each method, in a 100 x 100 box standing on the line y = 88. */
const outlines: Readonly<Record<PileMethod, string>> = {
  'static-cage': `M18 16 H82 V${ground} H18 Z`,
  'hot-bin': `M16 26 H84 V${ground} H16 Z`,
  'turned-windrow': `M4 ${ground} C14 50 32 34 50 34 S86 50 96 ${ground} Z`,
  'aerated-static-pile': `M4 ${ground} C10 52 30 30 50 30 S90 52 96 ${ground} Z`,
  'worm-bed': `M6 56 H94 V${ground} H6 Z`,
  'curing-heap': `M10 ${ground} C16 54 34 40 50 40 S84 54 90 ${ground} Z`,
  'leaf-heap': `M12 ${ground} C14 46 30 28 50 28 S86 46 88 ${ground} Z`,
};

/** Where each position sits in the cut. */
const spots: Readonly<Record<SectionPoint['position'], readonly [x: number, y: number]>> = {
  core: [50, 60],
  shoulder: [66, 48],
  edge: [78, 66],
  base: [42, 80],
  air: [92, 20],
};

export function SectionPicture({ id, method, points, nowMs }: SectionPictureProps) {
  const inPile = points.filter(({ position }) => position !== 'air').map((point) => believed(point, nowMs));
  const hottest = (position: SectionPoint['position']) => {
    const values = inPile.filter((point) => point.position === position && point.celsius !== null);
    return values.length > 0 ? Math.max(...values.map((point) => point.celsius!)) : null;
  };
  const core = hottest('core');
  const edge = hottest('edge') ?? hottest('base');
  const shoulder = hottest('shoulder') ?? middle(core, edge);
  return (
    <svg class="section" viewBox="0 0 100 100" role="img" aria-label={describe(inPile)}>
      <defs>
        <radialGradient id={`heat-${id}`} cx="0.5" cy="0.58" r="0.62">
          <stop offset="0" stop-color={heatColour(core)} />
          <stop offset="0.35" stop-color={heatColour(core)} />
          <stop offset="0.72" stop-color={heatColour(shoulder)} />
          <stop offset="1" stop-color={heatColour(edge ?? shoulder)} />
        </radialGradient>
      </defs>
      <path
        d={outlines[method]}
        fill={`url(#heat-${id})`}
        stroke="var(--strong-line)"
        stroke-width="2"
        stroke-linejoin="round"
      />
      <Furniture method={method} />
      <path d={`M0 ${ground + 1} H${width}`} stroke="var(--strong-line)" stroke-width="2.5" />
      {inPile.map((point, index) => (
        <ProbePoint key={`${point.position}${index}`} point={point} index={index} among={inPile} />
      ))}
    </svg>
  );
}

/** What the pile stands in: cage wires and air channels, boards, bedding. */
function Furniture({ method }: { readonly method: PileMethod }) {
  if (method === 'static-cage') {
    return (
      <g class="furniture">
        <path d="M14 92 H86 M20 92 V96 M50 92 V96 M80 92 V96" stroke="var(--strong-line)" stroke-width="3" />
        {[33, 66].map((x) => (
          <path
            key={x}
            d={`M${x - 2.6} 10 V${ground} H${x + 2.6} V10 Z`}
            fill="var(--ground)"
            stroke="var(--strong-line)"
            stroke-width="1.2"
          />
        ))}
      </g>
    );
  }
  if (method === 'hot-bin') {
    return (
      <path
        class="furniture"
        d="M13 22 V92 M87 22 V92 M13 44 H87 M13 66 H87"
        stroke="var(--strong-line)"
        stroke-width="1.6"
        stroke-opacity="0.55"
        fill="none"
      />
    );
  }
  if (method === 'worm-bed') {
    return <path class="furniture" d="M3 50 V92 M97 50 V92" stroke="var(--strong-line)" stroke-width="3" />;
  }
  return null;
}

interface ProbePointProps {
  readonly point: SectionPoint;
  readonly index: number;
  readonly among: readonly SectionPoint[];
}

function ProbePoint({ point, index, among }: ProbePointProps) {
  const [x, y] = spots[point.position];
  const before = among.slice(0, index).filter(({ position }) => position === point.position).length;
  const shift = before * (before % 2 === 0 ? 9 : -9);
  const silent = point.celsius === null;
  return (
    <circle
      cx={x + shift}
      cy={y}
      r="3.6"
      fill={silent ? 'none' : 'var(--card)'}
      stroke="var(--ink)"
      stroke-width="1.8"
      stroke-dasharray={silent ? '2 2' : undefined}
    />
  );
}

/** A point whose last good value is old is drawn empty: the pile may be anything there by now. */
function believed(point: SectionPoint, nowMs: number): SectionPoint {
  const isOld = point.timeMs !== null && nowMs - point.timeMs > oldAfterMs;
  return isOld ? { ...point, celsius: null } : point;
}

function middle(one: number | null, other: number | null): number | null {
  if (one === null) return other;
  return other === null ? one : (one + other) / 2;
}

function describe(points: readonly SectionPoint[]): string {
  if (points.length === 0) return words.cutWithoutProbe;
  const said = points.map(({ position, celsius }) =>
    words.pointIs(positionWords[position], celsius === null ? words.noReading : temperature(celsius)),
  );
  return words.cutWith(said.join(', '));
}
