import { chatterLimits } from './chattering.ts';
import { floodLimits } from './flood.ts';
import { night } from './localTime.ts';
import { actedWithinHours } from './reportActed.ts';
import { staleAfterHours } from './stale.ts';

/** A figure of the report beside what is aimed at; the aim is an upper bound unless `atLeast`. */
export interface ReportFigure {
  readonly id: string;
  readonly name: string;
  /** Null when there is nothing to take it of. */
  readonly value: number | null;
  readonly unit: string;
  readonly aim: number;
  readonly atLeast: boolean;
  /** Null where there is no value. */
  readonly isMet: boolean | null;
  /** Where the aim comes from, and how sure it is. */
  readonly source: string;
}

/** What was counted, before it is held against anything. */
export interface Counted {
  readonly busiestPersonPerDay: number;
  readonly nightTextsOfBusiest: number;
  readonly actedShare: number | null;
  readonly mostStaleOnOneDay: number;
  readonly chatteringAlarms: number;
  readonly worstTenShare: number | null;
  readonly mostInTenMinutes: number;
  readonly floodShare: number;
  readonly pressingShare: number | null;
}

const ours = 'our choice for people with phones, no source';
const restated = (rest: string) =>
  `ISA-18.2-2016 / IEC 62682, from public restatements (the standards were not seen): ${rest}`;

/**
 * The alarm standards' measures of one operator's load, restated for people with phones (reference pack 5.4): they are
 * about one person's attention, so every figure is one person's and not the yard's.
 */
export function reportFigures(counted: Counted): ReportFigure[] {
  return [
    figure('texts-per-day', 'texts a day to the person who gets most', counted.busiestPersonPerDay, 1, {
      unit: 'a day',
      source: `${ours}; the standards' 150 a day are for an operator at a desk`,
    }),
    figure(
      'night',
      `texts between ${night.fromHour}:00 and ${night.toHour}:00 to one person`,
      counted.nightTextsOfBusiest,
      0,
      {
        source: `${ours}: only what cannot wait until morning should ring at night`,
      },
    ),
    figure('acted', `texted alarms acted upon within ${actedWithinHours} h`, counted.actedShare, 0.8, {
      unit: 'share',
      atLeast: true,
      source: `${ours}; an alarm that asks for nothing is none (ISA-18.2 definition, restated)`,
    }),
    figure('stale', `most alarms older than ${staleAfterHours} h on one day`, counted.mostStaleOnOneDay, 4, {
      source: restated('fewer than 5 on any day, with a plan for each'),
    }),
    figure(
      'chattering',
      `alarms that came ${chatterLimits.activations} times within ${chatterLimits.withinHours} h`,
      counted.chatteringAlarms,
      0,
      {
        source: restated('none; how often counts as chattering is our choice'),
      },
    ),
    figure('worst-ten', 'share of the ten most frequent alarms', counted.worstTenShare, 0.05, {
      unit: 'share',
      source: restated('about 1-5 %; on a yard with few alarms it is always high and says little'),
    }),
    figure(
      'ten-minutes',
      'most texts to one person within ten minutes',
      counted.mostInTenMinutes,
      floodLimits.startAbove,
      {
        source: restated('10 or fewer'),
      },
    ),
    figure('flood', 'share of time in flood', counted.floodShare, 0.01, {
      unit: 'share',
      source: restated('under about 1 %'),
    }),
    figure('pressing', 'share of texts of the two highest priorities', counted.pressingShare, 0.06, {
      unit: 'share',
      source: restated(
        'about 5 % high and under 1 % highest; texts leave the low ones out, so more is to be expected',
      ),
    }),
  ];
}

function figure(
  id: string,
  name: string,
  value: number | null,
  aim: number,
  rest: { readonly unit?: string; readonly atLeast?: boolean; readonly source: string },
): ReportFigure {
  const { unit = '', atLeast = false, source } = rest;
  const isMet = value === null ? null : atLeast ? value >= aim : value <= aim;
  return { id, name, value, unit, aim, atLeast, isMet, source };
}
