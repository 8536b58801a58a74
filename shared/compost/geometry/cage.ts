/**
 * Cage geometry: what a wire panel encloses and what it takes to line it (here), where the air channels stand
 * (`layout`), how far any point is from air (`distanceToAir`), exact results for rings of channels (`ringFormulas`),
 * the ring or rings that keep everything near enough to air (`bestRing`, `channelDesign`), the point farthest from
 * air where the core probe belongs (`farthestPoint`, `probePlace`), and numbers for drawings (`drawing`).
 * Source: reference pack section 9. All lengths in metres; plan origin at the axis of the cage, z up from the base.
 */
import { requireBetween, requireNotNegative, requirePositive } from '../allowed.ts';

export interface WirePanel {
  readonly lengthMetres: number;
  /** How far the ends lie over each other. */
  readonly overlapMetres: number;
  readonly heightMetres: number;
}

export interface CageSize {
  readonly radiusMetres: number;
  readonly heightMetres: number;
  readonly circumferenceMetres: number;
  readonly floorAreaSquareMetres: number;
  readonly sideAreaSquareMetres: number;
  readonly cubicMetres: number;
  /** (side + top) / volume: how much surface there is to lose heat and water through, per metre. */
  readonly surfaceToVolume: number;
}

/** The cylinder a wire panel makes (9.1). Throws when the overlap uses up the panel. */
export function cageFromPanel(panel: WirePanel): CageSize {
  requirePositive('lengthMetres', panel.lengthMetres);
  requireBetween('overlapMetres', panel.overlapMetres, 0, panel.lengthMetres * 0.9);
  return cageOfRadius((panel.lengthMetres - panel.overlapMetres) / (2 * Math.PI), panel.heightMetres);
}

/** A cylinder of known radius. */
export function cageOfRadius(radiusMetres: number, heightMetres: number): CageSize {
  requirePositive('radiusMetres', radiusMetres);
  requirePositive('heightMetres', heightMetres);
  const circumferenceMetres = 2 * Math.PI * radiusMetres;
  const floorAreaSquareMetres = Math.PI * radiusMetres ** 2;
  const sideAreaSquareMetres = circumferenceMetres * heightMetres;
  const cubicMetres = floorAreaSquareMetres * heightMetres;
  return {
    radiusMetres,
    heightMetres,
    circumferenceMetres,
    floorAreaSquareMetres,
    sideAreaSquareMetres,
    cubicMetres,
    surfaceToVolume: (sideAreaSquareMetres + floorAreaSquareMetres) / cubicMetres,
  };
}

/** Panel length that encloses a volume at a height: 2 sqrt(pi V / H), plus the overlap. */
export function panelLengthForVolume(cubicMetres: number, heightMetres: number, overlapMetres = 0): number {
  requirePositive('cubicMetres', cubicMetres);
  requirePositive('heightMetres', heightMetres);
  return (
    2 * Math.sqrt((Math.PI * cubicMetres) / heightMetres) + requireNotNegative('overlapMetres', overlapMetres)
  );
}

/** Panel length that encloses a volume in a cylinder as tall as it is wide. */
export function panelLengthAsTallAsWide(cubicMetres: number): number {
  return Math.PI * Math.cbrt((4 * requirePositive('cubicMetres', cubicMetres)) / Math.PI);
}
