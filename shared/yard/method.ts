/** How a pile is run. Each method brings default limits, an expected course and a sanitisation rule that may apply. */
export const pileMethods = [
  'static-cage',
  'hot-bin',
  'turned-windrow',
  'aerated-static-pile',
  'worm-bed',
  'curing-heap',
  'leaf-heap',
] as const;

export type PileMethod = (typeof pileMethods)[number];

/** Names people see for each method. */
export const methodNames: Readonly<Record<PileMethod, string>> = {
  'static-cage': 'static cage, passively aerated',
  'hot-bin': 'hot bin, turned',
  'turned-windrow': 'turned windrow',
  'aerated-static-pile': 'aerated static pile',
  'worm-bed': 'worm bed',
  'curing-heap': 'curing heap',
  'leaf-heap': 'leaf heap',
};

/**
 * Methods whose pile people turn. Nobody is ever told to turn any other, nor one already curing: turning wakes it up
 * and breaks what has settled. The one place that says so.
 */
const turnedMethods: readonly PileMethod[] = ['hot-bin', 'turned-windrow'];

export function mayBeTurned(method: PileMethod): boolean {
  return turnedMethods.includes(method);
}
