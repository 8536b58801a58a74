import { type OpenEnds, verticalDistanceToAir } from '../geometry/distanceToAir.ts';
import type { SectionDrawing } from '../geometry/drawing.ts';
import type { AirLayout, CoreProbe } from './airLayout.ts';
import { type BoxPlan, boxFarthest } from './boxLayout.ts';

/**
 * Core probe and section of a box. Channels run the whole height, so plan and height are searched apart, as for round
 * piles; the section is cut along the box through the probe.
 */
export function boxProbe(
  plan: BoxPlan,
  ends: OpenEnds,
): Pick<AirLayout, 'probe' | 'section' | 'sectionLine'> {
  const farthest = boxFarthest(plan);
  const height = farthestHeight(ends);
  const distanceToAir = Math.min(farthest.distance, verticalDistanceToAir(ends, height));
  const heights = [
    ends.baseOpen ? distanceToAir : 0,
    ends.topOpen ? ends.heightMetres - distanceToAir : ends.heightMetres,
  ] as const;
  const z = (heights[0] + heights[1]) / 2;
  const probe: CoreProbe = {
    x: farthest.x,
    y: farthest.y,
    z,
    distanceToAir,
    depthFromTop: ends.heightMetres - z,
    depthFromWall: Math.min(plan.length / 2 - Math.abs(farthest.x), plan.width / 2 - Math.abs(farthest.y)),
  };
  const half = plan.length / 2;
  return {
    probe,
    section: sectionOf(plan, ends, probe, heights),
    sectionLine: [-half, probe.y, half, probe.y],
  };
}

function farthestHeight({ heightMetres, topOpen, baseOpen }: OpenEnds): number {
  if (topOpen === baseOpen) return heightMetres / 2;
  return topOpen ? 0 : heightMetres;
}

function sectionOf(
  plan: BoxPlan,
  ends: OpenEnds,
  probe: CoreProbe,
  probeHeights: readonly [number, number],
): SectionDrawing {
  return {
    width: plan.length,
    height: ends.heightMetres,
    topOpen: ends.topOpen,
    baseOpen: ends.baseOpen,
    channels: plan.channels.map(({ xMetres, yMetres, radiusMetres }) => {
      const away = Math.abs(yMetres - probe.y);
      const isCut = away < radiusMetres;
      const half = isCut ? Math.sqrt(radiusMetres ** 2 - away ** 2) : radiusMetres;
      return { left: xMetres - half, right: xMetres + half, isCut };
    }),
    probe: { across: probe.x, up: probe.z },
    probeHeights,
  };
}
