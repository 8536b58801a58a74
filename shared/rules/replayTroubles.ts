import type { ConditionId } from '../alarms/alarm.ts';
import type { PileMethod } from '../yard/method.ts';
import type { Placement } from '../yard/yard.ts';
import type { Past } from './replayPast.ts';

/** Something that went wrong in a pile's past, against which limits are held: did they warn, and how long before? */
export interface Trouble {
  /** In words for people: "core above 71 C". */
  readonly name: string;
  /** When it began: warning counts back from here. */
  readonly startMs: number;
  readonly endMs: number;
  /** Alarms that count as a warning of it. */
  readonly warnedBy: readonly ConditionId[];
}

/** A plain rule that finds troubles in readings, whatever the pile's own limits are. */
export interface TroubleRule {
  readonly name: string;
  readonly measures: (placement: Placement) => boolean;
  /** 1: above the level; -1: below it. */
  readonly sign: 1 | -1;
  readonly level: (method: PileMethod) => number | null;
  /** Shorter stretches are a touch, not a trouble. */
  readonly leastMinutes: number;
  readonly warnedBy: readonly ConditionId[];
}

const isCore = (at: Placement): boolean => at.position === 'core' && at.quantity === 'temperature';

const heatAlarms: readonly ConditionId[] = [
  'too-hot-early-notice',
  'too-hot-heading-there',
  'too-hot-ceiling',
  'too-hot-fire-danger',
];

/** Moisture under which work stops for want of water: 40 % in hot work (Cornell), 50 % in a cage or worm bed (ours). */
const dryLevel: Readonly<Record<PileMethod, number | null>> = {
  'static-cage': 0.5,
  'hot-bin': 0.4,
  'turned-windrow': 0.4,
  'aerated-static-pile': 0.4,
  'worm-bed': 0.5,
  'curing-heap': null,
  'leaf-heap': null,
};

/**
 * What counts as trouble where nobody has marked any. The levels are fixed and not the pile's limits, so that two sets
 * of limits can be compared against the same events. 71 C (160 F): North Carolina DEQ fire precaution; the least
 * lengths are common practice, no source.
 */
export const troubleRules: readonly TroubleRule[] = [
  {
    name: 'core above 71 C for an hour',
    measures: isCore,
    sign: 1,
    level: () => 71,
    leastMinutes: 60,
    warnedBy: heatAlarms,
  },
  {
    name: 'core at 80 C or above',
    measures: isCore,
    sign: 1,
    level: () => 79.99,
    leastMinutes: 0,
    warnedBy: heatAlarms,
  },
  {
    name: 'too dry to work for a day',
    measures: (at) => at.quantity === 'moisture',
    sign: -1,
    level: (method) => dryLevel[method],
    leastMinutes: 1440,
    warnedBy: ['drying-out-measured', 'drying-out-estimated'],
  },
];

/** Longer than this without a good reading ends a stretch: nobody knows what was in between. */
const longestGapMs = 6 * 3_600_000;
/** Back within this time it is still the same trouble. */
const sameTroubleMs = 12 * 3_600_000;

/** Troubles in a past by the plain rules above, channel by channel, those that touch joined; in order of their start. */
export function detectTroubles(past: Past, rules: readonly TroubleRule[] = troubleRules): Trouble[] {
  const placements = new Map(past.facts.placed.map(({ placement }) => [placement.id, placement]));
  return rules
    .flatMap((rule) => {
      const level = rule.level(past.facts.pile.method);
      if (level === null) return [];
      const stretches = past.channels.flatMap((channel) => {
        const placement = placements.get(channel.placementId);
        return placement !== undefined && rule.measures(placement)
          ? stretchesBeyond(channel, level, rule.sign)
          : [];
      });
      return joined(stretches)
        .filter(({ fromMs, toMs }) => toMs - fromMs >= rule.leastMinutes * 60_000)
        .map(({ fromMs, toMs }) => ({
          name: rule.name,
          startMs: fromMs,
          endMs: toMs,
          warnedBy: rule.warnedBy,
        }));
    })
    .sort((a, b) => a.startMs - b.startMs);
}

interface Stretch {
  readonly fromMs: number;
  readonly toMs: number;
}

function stretchesBeyond(channel: Past['channels'][number], level: number, sign: 1 | -1): Stretch[] {
  const { timesMs, values, quality } = channel;
  const found: Stretch[] = [];
  let fromMs: number | null = null;
  let lastMs = Number.NEGATIVE_INFINITY;
  const close = (): void => {
    if (fromMs !== null) found.push({ fromMs, toMs: lastMs });
    fromMs = null;
  };
  for (let row = 0; row < timesMs.length; row += 1) {
    if (quality[row] !== 0) continue;
    const atMs = timesMs[row]!;
    if (atMs - lastMs > longestGapMs) close();
    if (sign * (values[row]! - level) > 0) fromMs ??= atMs;
    else close();
    lastMs = atMs;
  }
  close();
  return found;
}

function joined(stretches: readonly Stretch[]): Stretch[] {
  const result: { fromMs: number; toMs: number }[] = [];
  for (const stretch of [...stretches].sort((a, b) => a.fromMs - b.fromMs)) {
    const last = result.at(-1);
    if (last !== undefined && stretch.fromMs - last.toMs <= sameTroubleMs)
      last.toMs = Math.max(last.toMs, stretch.toMs);
    else result.push({ ...stretch });
  }
  return result;
}
