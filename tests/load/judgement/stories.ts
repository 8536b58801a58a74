import { type Draw, drawFrom } from './draw.ts';
import { type StoryKind, storyKinds } from './storyKinds.ts';
import { parametersOf } from './storyPiles.ts';
import type { StoryFault, StorySpec } from './storySpec.ts';
import { drawWeather } from './storyWeather.ts';

/**
 * Two sets of seeds that share nothing. Whoever changes a default may look at `tuning` as often as they like; the table
 * that is printed and quoted is `holdOut`, which nobody tunes on.
 */
export const seedSets = { tuning: 10_000, holdOut: 7_770_000 } as const;
export type SeedSet = keyof typeof seedSets;

/** The first stories of a set; each is the same however many are asked for. */
export function makeStories(set: SeedSet, count: number): StorySpec[] {
  const order = roundOfKinds();
  return Array.from({ length: count }, (_, index) =>
    makeStory(seedSets[set] + index, `${set}-${index}`, order[index % order.length]!),
  );
}

/** Every kind as often as its weight, spread evenly, so that any number of stories has the same mixture. */
function roundOfKinds(): StoryKind[] {
  return storyKinds
    .flatMap((kind, index) =>
      Array.from({ length: kind.weight }, (_, turn) => ({
        kind,
        place: (turn + 0.5 + index / 1000) / kind.weight,
      })),
    )
    .sort((a, b) => a.place - b.place)
    .map(({ kind }) => kind);
}

/** One story, all its numbers drawn from its seed. */
export function makeStory(seed: number, id: string, kind: StoryKind): StorySpec {
  const draw = drawFrom(seed);
  const pile = kind.pile(draw);
  const days = draw.whole(...pile.days);
  const sensors = {
    secondCore: draw.happens(0.45),
    paired: draw.happens(0.5),
    moisture: draw.happens(0.65) && kind.isMoistureUnknown !== true,
    air: draw.happens(0.85),
    intervalMinutes: draw.oneOf([10, 10, 20, 30]),
  };
  return {
    id,
    seed,
    kind: kind.name,
    method: pile.method,
    cause: kind.cause,
    parameters: parametersOf(pile),
    interventions: pile.interventions,
    tending: pile.tending,
    weather: drawWeather(draw, days, kind.season ?? 'growing'),
    days,
    sensors,
    faults: draw.happens(0.27) ? [drawFault(draw, days, sensors.secondCore && sensors.paired)] : [],
  };
}

function drawFault(draw: Draw, days: number, paired: boolean): StoryFault {
  const fromDay = draw.between(2, days - 4);
  const channel = 'core';
  if (paired && draw.happens(0.5)) {
    const perDay = draw.oneOf([-1, 1]) * draw.between(1, 4);
    return { kind: 'drifts', channel: 'core2', fromDay: draw.between(2, days / 2), perDay };
  }
  const either = draw.whole(1, 6);
  if (either === 1) return { kind: 'dies', channel, fromDay };
  if (either === 2) return { kind: 'power-on', atDay: fromDay, silentHours: draw.between(0.3, 0.7) };
  if (either === 3) return { kind: 'silent', fromDay, toDay: fromDay + draw.between(0.3, 2.5) };
  if (either === 4) return { kind: 'stuck', channel, fromDay };
  if (either === 5) return { kind: 'flickers', channel, share: draw.between(0.002, 0.02) };
  return { kind: 'battery', fromDay, perDay: draw.between(0.08, 0.2) };
}
