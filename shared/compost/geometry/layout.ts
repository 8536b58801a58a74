import { requireBetween, requirePositive } from '../allowed.ts';

/** Design rule of one published no-turn method: nothing more than about 1 ft (0.305 m) from air; from memory (MU). */
export const defaultMaximumDistanceMetres = 0.3;

/** A vertical air channel over the whole height of the pile, in plan. */
export interface Channel {
  readonly xMetres: number;
  readonly yMetres: number;
  readonly radiusMetres: number;
}

/** Plan of a round pile. A wall of wire and cloth lets air through; a wall of boards does not. */
export interface PlanLayout {
  readonly radiusMetres: number;
  readonly wallPermeable: boolean;
  readonly channels: readonly Channel[];
}

/**
 * `count` equal channels evenly on a ring. `turnRadians` turns the ring; the first channel stands on the x axis at 0.
 */
export function ring(
  count: number,
  ringRadiusMetres: number,
  channelRadiusMetres: number,
  turnRadians = 0,
): Channel[] {
  return Array.from({ length: count }, (_, index) => {
    const angle = turnRadians + (2 * Math.PI * index) / count;
    const [xMetres, yMetres] = [ringRadiusMetres * Math.cos(angle), ringRadiusMetres * Math.sin(angle)];
    return { xMetres, yMetres, radiusMetres: channelRadiusMetres };
  });
}

/** One channel on the axis. */
export function centralChannel(radiusMetres: number): Channel {
  return { xMetres: 0, yMetres: 0, radiusMetres };
}

/** Returns a layout placed by hand, or throws a `RangeError`: channels stay inside the wall and clear of each other. */
export function checkLayout(layout: PlanLayout): PlanLayout {
  requirePositive('radiusMetres', layout.radiusMetres);
  for (const [index, channel] of layout.channels.entries()) {
    requirePositive(`radiusMetres of channel ${index + 1}`, channel.radiusMetres);
    const reach = Math.hypot(channel.xMetres, channel.yMetres) + channel.radiusMetres;
    requireBetween(`outer edge of channel ${index + 1}`, reach, 0, layout.radiusMetres * (1 + 1e-9));
    for (const [other, before] of layout.channels.slice(0, index).entries()) {
      const gap = Math.hypot(channel.xMetres - before.xMetres, channel.yMetres - before.yMetres);
      const least = (channel.radiusMetres + before.radiusMetres) * (1 - 1e-9);
      if (gap < least)
        throw new RangeError(
          `channels ${other + 1} and ${index + 1} are ${gap} m apart; allowed is ${least} m or more`,
        );
    }
  }
  return layout;
}
