import type { Intervention } from '../pileModel/interventions.ts';
import { materialFromMix } from '../pileModel/materialFromMix.ts';
import { type MaterialParameters, type PileParameters, pileParameters } from '../pileModel/parameters.ts';
import type { PileShape } from '../pileModel/shape.ts';
import { type Container, fillingOf } from './container.ts';
import type { MixFigures } from './mixFigures.ts';
import type { Plan } from './plan.ts';

/** Days looked ahead: heat is over by then in every pile of this size the model knows. */
export const courseDays = 90;

/** A mix as the pile model's material; `null` with the reason when a number it needs is missing. */
export function materialOfMix(
  figures: MixFigures,
  startCelsius: number,
): { readonly material: MaterialParameters } | { readonly missing: string } {
  const { bulkDensity, carbonToNitrogen, organicFractionDry, moistureFraction } = figures;
  if (bulkDensity === null) return { missing: 'the bulk density of every ingredient' };
  if (carbonToNitrogen === null) return { missing: 'something with nitrogen in it' };
  if (organicFractionDry === null) return { missing: 'the ash (or organic share) of every ingredient' };
  return {
    material: materialFromMix({
      bulkDensityKgPerM3: bulkDensity,
      moistureFraction: Math.min(0.95, Math.max(0.01, moistureFraction)),
      organicFractionDry,
      carbonNitrogenRatio: carbonToNitrogen,
      startCelsius,
    }),
  };
}

/** The pile as the model sees it: the container filled as far as the mix goes, its walls, and its channels. */
export function pileOf(
  plan: Plan,
  container: Container,
  mix: { readonly cubicMetres: number | null; readonly channelCount: number },
  material: MaterialParameters,
): PileParameters {
  const { wallPermeable, topOpen, baseOpen, channelDiameter } = plan.container;
  const { fillHeight } = fillingOf(container, mix.cubicMetres);
  const channels =
    mix.channelCount === 0
      ? {}
      : { channels: { count: mix.channelCount, radiusMetres: channelDiameter / 2 } };
  return pileParameters({
    shape: shapeOf(container, fillHeight),
    material,
    // Wire with cloth, or slatted boards: as in the model's own cage and garden bin.
    air: { opennessFraction: (wallPermeable ? 1 : 0.6) * (topOpen ? 1 : 0.7) },
    surface: {
      wallResistance: wallPermeable ? 0.2 : 0.12,
      baseResistance: baseOpen ? 0.7 : 0.5,
      rainCatchFraction: topOpen ? 0.5 : 0,
    },
    ...channels,
  });
}

function shapeOf(container: Container, heightMetres: number): PileShape {
  const { outline } = container;
  return outline.kind === 'circle'
    ? { kind: 'cylinder', radiusMetres: outline.radius, heightMetres }
    : { kind: 'box', lengthMetres: outline.length, widthMetres: outline.width, heightMetres };
}

const daySeconds = 86_400;
/** Turned for eight weeks, then left: ours. */
const turningDays = 56;
const hoseCelsius = 14;

/** What the keeper will do: water every other day, pull the pipes, turn. */
export function interventionsOf(plan: Plan, hasChannels: boolean): Intervention[] {
  const { litresEveryOtherDay, pullPipesDay, turnEveryDays } = plan.running;
  const waterings = litresEveryOtherDay > 0 ? Math.floor(courseDays / 2) : 0;
  const actions = Array.from({ length: waterings }, (_, index): Intervention => {
    return {
      atSeconds: (1 + 2 * index) * daySeconds,
      kind: 'water',
      litres: litresEveryOtherDay,
      celsius: hoseCelsius,
    };
  });
  if (hasChannels && pullPipesDay !== null)
    actions.push({ atSeconds: pullPipesDay * daySeconds, kind: 'pull-channels' });
  if (turnEveryDays !== null)
    for (let turnDay = turnEveryDays; turnDay <= turningDays; turnDay += turnEveryDays)
      actions.push({ atSeconds: turnDay * daySeconds, kind: 'turn' });
  return actions;
}
