/** Curing begins once a turn no longer takes the pile back to this (AgriFutures, confirmed). */
export const curingBelowCelsius = 45;
/** Curing is complete within this of the air (AgriFutures, confirmed). */
export const curedWithinCelsius = 5;
/** Hours after a turn within which a pile that will reheat has done so (synthesis in the physics reference, unconfirmed). */
export const reheatHours = 48;

export interface TurnResponse {
  /** Hottest the core got in the time since the turn, and before it. */
  readonly peakBeforeCelsius: number;
  readonly peakSinceCelsius: number;
  /** Null when how long ago the turn was is not known. */
  readonly hoursSinceTurn: number | null;
}

export type CuringVerdict =
  | 'curing has started'
  | 'still heating after the turn'
  | 'too early to tell'
  | 'was never hot';

/** Whether a turn shows that curing has started: the pile was hot and did not come back to 45 C. */
export function judgeCuringStart(response: TurnResponse): CuringVerdict {
  if (response.peakSinceCelsius >= curingBelowCelsius) return 'still heating after the turn';
  if (response.peakBeforeCelsius < curingBelowCelsius) return 'was never hot';
  if (response.hoursSinceTurn !== null && response.hoursSinceTurn < reheatHours) return 'too early to tell';
  return 'curing has started';
}
