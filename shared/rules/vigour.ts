/**
 * How hard a pile works beside what is usual, read from how fast its core warmed the first time: heat shown = what warmed
 * it and what it lost meanwhile, over the heat a usual mix makes at that warmth (reference 5.9: watts and adiabatic rise
 * are the same thing said twice). A rich mix warms three times as fast, and dries as much faster.
 */
export interface Vigour {
  /** Core of the hour before; NaN when it was not known. */
  readonly coreCelsius: number;
  /** Rise per hour, smoothed over about six; NaN once the first warming is over and nothing more is learnt. */
  readonly risePerHour: number;
  /** Highest ratio shown so far; 0 while none was. */
  readonly shown: number;
}

export const freshVigour: Vigour = { coreCelsius: Number.NaN, risePerHour: 0, shown: 0 };

/** Nothing can be learnt from warming up again after work: hot and cold parts were mixed. */
export function learntEnough(vigour: Vigour): Vigour {
  return Number.isNaN(vigour.risePerHour) ? vigour : { ...vigour, risePerHour: Number.NaN };
}

const smoothingHours = 6;
/** Below this the microbes are still few, above it they begin to die: neither shows what the mix can do (ours). */
const readableCelsius = { from: 42, to: 62 } as const;
/** Only while it warms: one that stood hot when the first probe went in shows nothing. */
const leastRise = 0.2;
/** A probe pushed in warms faster than any pile. */
const fastestRise = 8;
/** Believed within these bounds only. */
const bounds = { least: 0.6, most: 3.2 } as const;

/** One more hour of a known core. `usualKelvin` is what a usual mix would warm by in that hour with no loss. */
export function stepVigour(
  vigour: Vigour,
  coreCelsius: number,
  { lostKelvin, usualKelvin }: { readonly lostKelvin: number; readonly usualKelvin: number },
): Vigour {
  if (Number.isNaN(vigour.risePerHour)) return vigour;
  const rise = coreCelsius - vigour.coreCelsius;
  const isReal = !Number.isNaN(rise) && Math.abs(rise) <= fastestRise;
  const risePerHour = isReal ? vigour.risePerHour + (rise - vigour.risePerHour) / smoothingHours : 0;
  const isReadable =
    risePerHour >= leastRise &&
    coreCelsius >= readableCelsius.from &&
    coreCelsius <= readableCelsius.to &&
    usualKelvin > 0;
  const now = isReadable ? (risePerHour + lostKelvin) / usualKelvin : 0;
  return { coreCelsius, risePerHour, shown: Math.max(vigour.shown, now) };
}

/** The multiple of the usual heat this pile makes; 1 as long as nothing is known. */
export function vigourOf({ shown }: Vigour): number {
  return shown === 0 ? 1 : Math.min(bounds.most, Math.max(bounds.least, shown));
}
