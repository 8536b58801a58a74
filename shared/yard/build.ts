/**
 * How large a pile was built and of what, as far as somebody wrote it down: the planner does when a pile is started
 * from a plan. Null where it is not known; nothing is guessed.
 */
export interface PileBuild {
  readonly volumeM3: number | null;
  /** Smallest of width, depth and height: what decides how fast it loses heat. */
  readonly leastSideMetres: number | null;
  readonly wetKg: number | null;
  readonly carbonToNitrogen: number | null;
  /** Wet basis. */
  readonly moistureFraction: number | null;
  readonly freeAirSpaceFraction: number | null;
}

/** A pile of which nobody wrote anything down. */
export const unknownBuild: PileBuild = {
  volumeM3: null,
  leastSideMetres: null,
  wetKg: null,
  carbonToNitrogen: null,
  moistureFraction: null,
  freeAirSpaceFraction: null,
};
