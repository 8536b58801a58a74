import type { ShapeFigures } from './shape.ts';

/** Nested shells from the inside out; index into every per-zone array of the model. */
export const zoneNames = ['core', 'shoulder', 'edge'] as const;
export type ZoneName = (typeof zoneNames)[number];
export const zoneCount = zoneNames.length;
export const core = 0;
export const shoulder = 1;
export const edge = 2;

/** Outer bound of each shell as a share of the half-thickness: on a 1.2 m cage the edge is the outer 0.12 m. */
const outerBound = [0.55, 0.8, 1] as const;

/** Shell figures of the pile as it was built; lengths and areas shrink with it as it settles. */
export interface ZoneGeometry {
  /** Share of the pile's volume in each shell. */
  readonly volumeShare: Float64Array;
  /** Share of the plan area whose column of air rises through each shell. */
  readonly planShare: Float64Array;
  /** Area between shell i and i+1, m2; the last is the outer surface. */
  readonly outerFaceM2: Float64Array;
  /** Distance between the middles of shell i and i+1, metres; the last is from the edge's middle to the surface. */
  readonly gapMetres: Float64Array;
  /** Distance from the middle of each shell to the outer surface, metres. */
  readonly depthMetres: Float64Array;
  readonly figures: ShapeFigures;
}

function middleOf(zone: number): number {
  return zone === core ? 0.35 * outerBound[0] : (outerBound[zone - 1]! + outerBound[zone]!) / 2;
}

/** Cuts a shape into core, shoulder and edge: similar shells around its middle. */
export function zoneGeometry(figures: ShapeFigures): ZoneGeometry {
  const { dimensions, halfThicknessMetres: half } = figures;
  const surface = figures.sideAreaM2 + figures.topAreaM2 + figures.baseAreaM2;
  const shellShare = (power: number) =>
    Float64Array.from(outerBound, (bound, zone) => bound ** power - (outerBound[zone - 1] ?? 0) ** power);
  return {
    volumeShare: shellShare(dimensions),
    planShare: shellShare(dimensions - 1),
    outerFaceM2: Float64Array.from(outerBound, (bound) => surface * bound ** (dimensions - 1)),
    gapMetres: Float64Array.from(
      outerBound,
      (_, zone) => ((zone < edge ? middleOf(zone + 1) : 1) - middleOf(zone)) * half,
    ),
    depthMetres: Float64Array.from(outerBound, (_, zone) => (1 - middleOf(zone)) * half),
    figures,
  };
}
