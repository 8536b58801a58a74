import fc from 'fast-check';
import { type RingLayout, ringRadiusRange } from '../../shared/compost/geometry/ringFormulas.ts';

/** Test help: any number between two bounds. */
export const between = (low: number, high: number) => fc.double({ min: low, max: high, noNaN: true });

/** Test help: any ring that fits: two to nine channels, with or without one on the axis, either wall. */
export const anyRing: fc.Arbitrary<RingLayout> = fc
  .record({
    radiusMetres: between(0.35, 1.2),
    wallPermeable: fc.boolean(),
    channelRadiusMetres: between(0.02, 0.05),
    count: fc.integer({ min: 2, max: 9 }),
    withCentral: fc.boolean(),
    share: between(0, 1),
  })
  .map(({ share, ...choice }) => {
    const { low, high } = ringRadiusRange(choice);
    return { ...choice, ringRadiusMetres: low + share * (high - low) };
  });
