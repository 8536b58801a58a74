import { filledVolume } from '../../../shared/compost/mix/freeAirSpace.ts';
import { shapeFigures } from '../../../shared/compost/pileModel/shape.ts';
import { plannerFormula } from '../../../shared/compost/planner/mixFigures.ts';
import type { PileBuild } from '../../../shared/yard/build.ts';
import { drawFrom } from './draw.ts';
import type { StorySpec } from './storySpec.ts';

/** Half of the piles were started from a plan; the others by their name only. */
const sharePlanned = 0.5;

/**
 * What people wrote down when they built a story's pile, as honest and as wrong as plans are. The simulated material has
 * no nitrogen, so its C:N is not known. Drawn apart from the story's other chances.
 */
export function buildOfStory({ seed, parameters: { shape, material } }: StorySpec): PileBuild | null {
  const draw = drawFrom(seed + 2);
  if (!draw.happens(sharePlanned)) return null;
  const { volumeM3 } = shapeFigures(shape);
  const moistureFraction = material.moistureFraction + draw.between(-0.03, 0.03);
  const bulkDensity = material.bulkDensityKgPerM3 * draw.between(0.9, 1.1);
  const filled = filledVolume(plannerFormula, moistureFraction, 1 - material.ashFraction);
  return {
    ...{
      volumeM3,
      leastSideMetres: leastSideOf(shape),
      wetKg: volumeM3 * bulkDensity,
      carbonToNitrogen: null,
    },
    moistureFraction,
    freeAirSpaceFraction: Math.max(0, 1 - bulkDensity * filled),
  };
}

type Shape = StorySpec['parameters']['shape'];

function leastSideOf(shape: Shape): number {
  if (shape.kind === 'cylinder') return Math.min(2 * shape.radiusMetres, shape.heightMetres);
  return Math.min(shape.widthMetres, shape.lengthMetres, shape.heightMetres);
}
