import { useId } from 'preact/hooks';
import type { AirLayout } from '../../../shared/compost/planner/airLayout.ts';
import type { Container } from '../../../shared/compost/planner/container.ts';
import { measures } from '../../common/words.ts';
import { cageWords } from './cageWords.ts';

interface DrawingProps {
  readonly room: Container;
  readonly layout: AirLayout;
  readonly permeable: boolean;
}

/** Drawings are in centimetres, so that 1 unit is 1 cm whatever the size on screen or paper. */
const cm = (metres: number) => metres * 100;

function halfSize({ outline }: Container): readonly [number, number] {
  return outline.kind === 'circle'
    ? [cm(outline.radius), cm(outline.radius)]
    : [cm(outline.length / 2), cm(outline.width / 2)];
}

/** A round number of centimetres about a third of a width, for the scale bar. */
function barLength(width: number): number {
  return [10, 20, 50, 100, 200].findLast((each) => each <= width / 2) ?? 10;
}

interface ScaleBarProps {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly size: number;
}

function ScaleBar({ x, y, width, size }: ScaleBarProps) {
  const length = barLength(width);
  return (
    <g class="scale-bar">
      <path
        d={`M${x} ${y - size / 3} V${y + size / 3} M${x} ${y} H${x + length} M${x + length} ${y - size / 3} V${y + size / 3}`}
      />
      <text x={x + length + size / 2} y={y + size / 3} font-size={size}>
        {length < 100 ? measures.centimetres(length) : measures.metres(length / 100)}
      </text>
    </g>
  );
}

function Cross({ x, y, size }: { readonly x: number; readonly y: number; readonly size: number }) {
  return (
    <path
      class="cross"
      stroke-width={size / 5}
      d={`M${x - size} ${y - size} L${x + size} ${y + size} M${x - size} ${y + size} L${x + size} ${y - size}`}
    />
  );
}

/** Plan: wall, numbered channels, the place farthest from air with the circle in which there is none. */
export function FromAbove({ room, layout, permeable }: DrawingProps) {
  const [across, deep] = halfSize(room);
  const size = Math.max(across, deep) * 0.11;
  const margin = size;
  const box = `${-across - margin} ${-deep - margin} ${2 * (across + margin)} ${2 * (deep + margin) + 2 * size}`;
  const { probe, channels, sectionLine } = layout;
  const [x1, y1, x2, y2] = sectionLine.map(cm) as [number, number, number, number];
  const inside = useId();
  const wallClass = permeable ? 'wall wire' : 'wall boards';
  const spoken = cageWords.planSays(layout.words, Math.round(cm(Math.hypot(probe.x, probe.y))));
  return (
    <svg class="drawing" viewBox={box} role="img" aria-label={spoken}>
      {room.outline.kind === 'circle' ? (
        <circle r={across} class={wallClass} stroke-width={size / 6} />
      ) : (
        <rect
          x={-across}
          y={-deep}
          width={2 * across}
          height={2 * deep}
          class={wallClass}
          stroke-width={size / 6}
        />
      )}
      <clipPath id={inside}>
        {room.outline.kind === 'circle' ? (
          <circle r={across} />
        ) : (
          <rect x={-across} y={-deep} width={2 * across} height={2 * deep} />
        )}
      </clipPath>
      <path class="cut-line" d={`M${x1} ${-y1} L${x2} ${-y2}`} stroke-width={size / 12} />
      {Number.isFinite(layout.planDistance) && (
        <circle
          class="airless"
          cx={cm(probe.x)}
          cy={-cm(probe.y)}
          clip-path={`url(#${inside})`}
          r={cm(layout.planDistance)}
          stroke-width={size / 12}
        />
      )}
      {channels.map(({ xMetres, yMetres, radiusMetres }, index) => (
        <g key={`${xMetres} ${yMetres}`}>
          <circle
            cx={cm(xMetres)}
            cy={-cm(yMetres)}
            r={cm(radiusMetres)}
            class="channel-hole"
            stroke-width={size / 10}
          />
          <text x={cm(xMetres)} y={-cm(yMetres) + size * 0.32} font-size={size * 0.9} text-anchor="middle">
            {index + 1}
          </text>
        </g>
      ))}
      <Cross x={cm(probe.x)} y={-cm(probe.y)} size={size * 0.45} />
      <ScaleBar x={-across} y={deep + margin + size * 0.7} width={2 * across} size={size} />
    </svg>
  );
}

/** Upright cut through the probe: channels (dashed when behind the cut), fill, and how deep the probe goes. */
export function CutDrawing({ room, layout, permeable }: DrawingProps) {
  const { section, probe } = layout;
  const half = cm(section.width / 2);
  const wall = cm(room.height);
  const fill = cm(section.height);
  const size = Math.max(half * 2, wall) * 0.055;
  const margin = size * 1.2;
  const head = size * 3.6;
  const box = `${-half - margin} ${-wall - head} ${2 * (half + margin)} ${wall + head + size * 4.4}`;
  const tipX = cm(section.probe.across);
  const tipY = -cm(section.probe.up);
  const spoken = cageWords.sectionSays(
    section.height.toFixed(2),
    layout.words,
    probe.depthFromTop.toFixed(2),
  );
  return (
    <svg class="drawing" viewBox={box} role="img" aria-label={spoken}>
      <rect x={-half} y={-fill} width={2 * half} height={fill} class="material" />
      <path
        class={permeable ? 'wall wire' : 'wall boards'}
        stroke-width={size / 3}
        d={`M${-half} ${-wall} V0 M${half} ${-wall} V0`}
      />
      <path
        class={section.baseOpen ? 'base open' : 'base'}
        stroke-width={size / 2}
        d={`M${-half - margin / 2} ${size / 2} H${half + margin / 2}`}
      />
      {section.channels.map(({ left, right, isCut }) => (
        <rect
          key={`${left} ${right}`}
          x={cm(left)}
          y={-fill - size * 1.2}
          width={cm(right - left)}
          height={fill + size * 1.2}
          class={isCut ? 'channel-hole' : 'channel-behind'}
          stroke-width={size / 6}
        />
      ))}
      <path class="probe-stem" d={`M${tipX} ${-fill - size * 1.6} V${tipY}`} stroke-width={size / 4} />
      <Cross x={tipX} y={tipY} size={size * 0.6} />
      <text
        x={tipX}
        y={-fill - size * 2}
        font-size={size}
        text-anchor={tipX > half * 0.5 ? 'end' : tipX < -half * 0.5 ? 'start' : 'middle'}
      >
        {cageWords.deep(probe.depthFromTop.toFixed(2))}
      </text>
      <ScaleBar x={-half} y={size * 3} width={2 * half} size={size} />
    </svg>
  );
}
