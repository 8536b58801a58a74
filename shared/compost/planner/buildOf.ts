import type { PileBuild } from '../../yard/build.ts';
import { containerOf, fillingOf } from './container.ts';
import type { MixFigures } from './mixFigures.ts';
import type { ContainerChoice } from './plan.ts';

/** What a plan says of the pile built from it: written down with the pile, as evidence when something is wrong. */
export function buildOf(choice: ContainerChoice, figures: MixFigures): PileBuild {
  const room = containerOf(choice);
  const { fillHeight } = fillingOf(room, figures.cubicMetres);
  const across =
    room.outline.kind === 'circle'
      ? 2 * room.outline.radius
      : Math.min(room.outline.length, room.outline.width);
  return {
    volumeM3: Math.min(room.cubicMetres, figures.cubicMetres ?? room.cubicMetres),
    leastSideMetres: Math.min(across, fillHeight),
    wetKg: figures.wetKilograms,
    carbonToNitrogen: figures.carbonToNitrogen,
    moistureFraction: figures.moistureFraction,
    freeAirSpaceFraction: figures.freeAirSpace,
  };
}
