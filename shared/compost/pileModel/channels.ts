import type { Site } from './site.ts';
import type { PileState } from './state.ts';

/** How the wall of vertical channels is shared among core, shoulder and edge (ours: ring at mid radius, full height). */
const wallShare = [0.4, 0.4, 0.2] as const;

/** Wall of open channel that faces a zone, m2: all of it once the pipes are pulled, only their slots before. */
export function channelAreaM2(state: PileState, site: Site, zone: number): number {
  const { channels } = site.parameters;
  if (channels === null) return 0;
  const { volumeM3, topAreaM2 } = site.geometry.figures;
  const wall = channels.count * 2 * Math.PI * channels.radiusMetres * (volumeM3 / topAreaM2);
  return wall * wallShare[zone]! * (state.channelsPulled ? 1 : channels.pipeOpenFraction);
}
