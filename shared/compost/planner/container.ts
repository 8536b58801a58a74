import { cageFromPanel, cageOfRadius } from '../geometry/cage.ts';
import type { ContainerChoice } from './plan.ts';

/** The room a container gives. Metres, m2, m3. */
export interface Container {
  readonly outline:
    | { readonly kind: 'circle'; readonly radius: number }
    | { readonly kind: 'rectangle'; readonly length: number; readonly width: number };
  readonly height: number;
  readonly floorArea: number;
  readonly cubicMetres: number;
  /** Length of wall all round. */
  readonly around: number;
}

/** Floor, wall and volume of the chosen container. Throws a `RangeError` naming a length that cannot be. */
export function containerOf(choice: ContainerChoice): Container {
  if (choice.form === 'box') {
    const { boxLength: length, boxWidth: width, height } = choice;
    const floorArea = length * width;
    return {
      outline: { kind: 'rectangle', length, width },
      height,
      floorArea,
      cubicMetres: floorArea * height,
      around: 2 * (length + width),
    };
  }
  const cage =
    choice.form === 'panel'
      ? cageFromPanel({
          lengthMetres: choice.panelLength,
          overlapMetres: choice.panelOverlap,
          heightMetres: choice.height,
        })
      : cageOfRadius(choice.radius, choice.height);
  return {
    outline: { kind: 'circle', radius: cage.radiusMetres },
    height: cage.heightMetres,
    floorArea: cage.floorAreaSquareMetres,
    cubicMetres: cage.cubicMetres,
    around: cage.circumferenceMetres,
  };
}

/** How full a mix makes it: height of the fresh pile and what does not fit. */
export interface Filling {
  readonly fillHeight: number;
  readonly share: number;
  readonly cubicMetresOver: number;
}

/** Lowest pile worth drawing; below this there is no pile to speak of. */
const leastHeight = 0.1;

/** Fills the container with a volume; an unknown or missing volume counts as full. */
export function fillingOf(container: Container, cubicMetres: number | null): Filling {
  if (cubicMetres === null) return { fillHeight: container.height, share: 1, cubicMetresOver: 0 };
  const height = Math.min(container.height, cubicMetres / container.floorArea);
  return {
    fillHeight: Math.max(leastHeight, height),
    share: cubicMetres / container.cubicMetres,
    cubicMetresOver: Math.max(0, cubicMetres - container.cubicMetres),
  };
}
