import type { House } from './house.ts';

/** What of the records a person changed; a field is left out when it does not apply. */
export interface FactsChange {
  /** This pile's placements, journal or limits; left out: the yard, its people or probes. */
  readonly pileId?: string;
  /** A probe's credential was made, replaced or revoked: connections made with the old one should end. */
  readonly probeId?: string;
}

/** Tells rules, and whoever else listens, at once: a person who has just changed something looks for the effect. */
export function factsChanged(house: House, change: FactsChange = {}): void {
  if (house.rules.factsChanged === undefined) house.rules.nudge();
  else house.rules.factsChanged(change.pileId);
  house.onFactsChanged(change);
}
