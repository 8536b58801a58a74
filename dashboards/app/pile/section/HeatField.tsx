import { useEffect, useRef } from 'preact/hooks';
import { heatColour } from '../../../common/heatColour.ts';

export interface HeatSource {
  readonly across: number;
  readonly up: number;
  readonly celsius: number;
}

interface HeatFieldProps {
  readonly halfWidth: number;
  readonly height: number;
  readonly sources: readonly HeatSource[];
  /** Where the pile lies in the picture, in shares of it. */
  readonly box: {
    readonly left: number;
    readonly top: number;
    readonly width: number;
    readonly height: number;
  };
}

const columns = 40;
const rows = 32;
const percent = (share: number) => `${share * 100}%`;

/**
 * Colour between the points. A coarse picture that the browser smooths: each spot is the mean of all points, weighted by
 * the inverse square of its distance; each point counts on both sides, since a pile is about alike all round. A guess for
 * the eye; numbers stand at the points.
 */
export function HeatField({ halfWidth, height, sources, box }: HeatFieldProps) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const key = sources.map(({ across, up, celsius }) => [across, up, celsius.toFixed(1)].join()).join(';');
  useEffect(() => {
    const context = canvas.current!.getContext('2d')!;
    for (let row = 0; row < rows; row += 1)
      for (let column = 0; column < columns; column += 1) {
        const across = ((column + 0.5) / columns - 0.5) * 2 * halfWidth;
        const up = (1 - (row + 0.5) / rows) * height;
        context.fillStyle = heatColour(mixedAt(sources, across, up));
        context.fillRect(column, row, 1, 1);
      }
  }, [key, halfWidth, height]);
  const style = {
    left: percent(box.left),
    top: percent(box.top),
    width: percent(box.width),
    height: percent(box.height),
  };
  return <canvas ref={canvas} class="heat-field" width={columns} height={rows} style={style} />;
}

/** Two points closer than this to a spot count alike, metres. */
const blur = 0.08;

export function mixedAt(sources: readonly HeatSource[], across: number, up: number): number | null {
  let [sum, weights] = [0, 0];
  for (const source of sources)
    for (const side of [source.across, -source.across]) {
      const weight = 1 / ((side - across) ** 2 + (source.up - up) ** 2 + blur ** 2);
      sum += weight * source.celsius;
      weights += weight;
    }
  return weights === 0 ? null : sum / weights;
}
