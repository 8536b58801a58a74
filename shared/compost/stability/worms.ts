import { celsiusFromFahrenheit } from '../../units/temperature.ts';

export type WormHeat = 'too cold' | 'cool' | 'acceptable' | 'good' | 'warm' | 'critical' | 'lethal';
export type WormMoisture = 'too dry' | 'acceptable' | 'good' | 'too wet' | 'not known';

export interface WormBedJudgement {
  readonly heat: WormHeat;
  readonly moisture: WormMoisture;
  readonly verdict: 'good' | 'watch' | 'act' | 'lethal';
}

/** Levels for Eisenia fetida and E. andrei from the sanitation reference, section 7.1 (survival range NC State; levels ours). */
export const wormLevels = {
  coldBelowCelsius: 5,
  coolBelowCelsius: 10,
  goodFromCelsius: 15,
  goodToCelsius: 25,
  warmAboveCelsius: 28,
  criticalAboveCelsius: 30,
  lethalFromCelsius: 35,
  dryBelowFraction: 0.6,
  goodFromFraction: 0.7,
  goodToFraction: 0.85,
  wetAboveFraction: 0.9,
} as const;

export type WormLevels = { readonly [Key in keyof typeof wormLevels]: number };

/** Judges a worm bed by temperature and wet-basis moisture (null when it is not measured). */
export function judgeWormBed(
  celsius: number,
  moistureFraction: number | null,
  levels: WormLevels = wormLevels,
): WormBedJudgement {
  const heat = wormHeat(celsius, levels);
  const moisture = wormMoisture(moistureFraction, levels);
  return { heat, moisture, verdict: verdictOf(heat, moisture) };
}

function wormHeat(celsius: number, levels: WormLevels): WormHeat {
  if (celsius >= levels.lethalFromCelsius) return 'lethal';
  if (celsius > levels.criticalAboveCelsius) return 'critical';
  if (celsius > levels.warmAboveCelsius) return 'warm';
  if (celsius < levels.coldBelowCelsius) return 'too cold';
  if (celsius < levels.coolBelowCelsius) return 'cool';
  return celsius >= levels.goodFromCelsius && celsius <= levels.goodToCelsius ? 'good' : 'acceptable';
}

function wormMoisture(fraction: number | null, levels: WormLevels): WormMoisture {
  if (fraction === null) return 'not known';
  if (fraction < levels.dryBelowFraction) return 'too dry';
  if (fraction > levels.wetAboveFraction) return 'too wet';
  return fraction >= levels.goodFromFraction && fraction <= levels.goodToFraction ? 'good' : 'acceptable';
}

function verdictOf(heat: WormHeat, moisture: WormMoisture): WormBedJudgement['verdict'] {
  if (heat === 'lethal') return 'lethal';
  if (heat === 'critical' || heat === 'too cold' || moisture === 'too dry' || moisture === 'too wet')
    return 'act';
  const fine = heat === 'good' && (moisture === 'good' || moisture === 'not known');
  return fine ? 'good' : 'watch';
}

/** Worms may go in at or below this (80 F; from user reports and original instructions, secondary). */
export const addWormsAtOrBelowCelsius = celsiusFromFahrenheit(80);

/** Whether the core of a cooling pile is cool enough for worms. */
export function mayAddWorms(coreCelsius: number): boolean {
  return coreCelsius <= addWormsAtOrBelowCelsius;
}
