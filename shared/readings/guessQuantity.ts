import type { Quantity } from '../yard/yard.ts';

const bySign: readonly (readonly [RegExp, Quantity])[] = [
  [/batt|charge/, 'battery'],
  [/volt/, 'voltage'],
  [/moist|water/, 'moisture'],
  [/humid|(^|[^a-z])rh($|[^a-z])/, 'relative-humidity'],
  [/signal|rssi|snr|rain|press|co2|count/, 'other'],
];

/** What a channel probably measures, by what its probe calls it; a person sees it and may say otherwise. */
export function guessQuantity(channelLeaf: string): Quantity {
  const name = channelLeaf.toLowerCase();
  return bySign.find(([sign]) => sign.test(name))?.[1] ?? 'temperature';
}
