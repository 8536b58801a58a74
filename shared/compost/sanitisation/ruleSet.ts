import type { PileMethod } from '../../yard/method.ts';

/** How sure we are that the figures are what the rule's own text says. */
export type RuleStatus = 'confirmed' | 'confirmed-secondary' | 'from-memory';

/** The status as people see it beside every record made under the rule. */
export const ruleStatusWords: Readonly<Record<RuleStatus, string>> = {
  confirmed: 'confirmed',
  'confirmed-secondary': 'confirmed from a secondary source',
  'from-memory': 'unconfirmed',
};

/** Whether hours must follow one another without a break, or may be added up. */
export type Continuity = 'consecutive' | 'cumulative';

/** The temperatures that count. `lowerIncluded` false means the text says "above"; the upper end is always included. */
export interface TemperatureBand {
  readonly lowerCelsius: number;
  readonly lowerIncluded: boolean;
  readonly upperCelsius: number | null;
}

/** Turnings that must fall inside the hot period; closer together than the spacing, the later one does not count. */
export interface TurningRequirement {
  readonly count: number;
  readonly minimumSpacingHours: number;
}

/** Something the record cannot prove by itself. A particle size is checked when it was written down. */
export type Precondition =
  | { readonly kind: 'particle-size'; readonly maximumMetres: number }
  | { readonly kind: 'stated'; readonly words: string };

interface PathBase {
  readonly id: string;
  readonly band: TemperatureBand;
  readonly hours: number;
  readonly preconditions: readonly Precondition[];
}

/** Hold the band for some hours, perhaps with turnings inside, a hotter spell inside, or a mean to beat. */
export interface HoldPath extends PathBase {
  readonly kind: 'hold';
  readonly continuity: Continuity;
  /** True where the text leaves consecutive or cumulative open, so a yard may choose. */
  readonly continuityIsPolicy: boolean;
  readonly turnings: TurningRequirement | null;
  /** A hotter spell that must fall within the `hours` held. */
  readonly peak: { readonly band: TemperatureBand; readonly hours: number } | null;
  /** The mean over the hours held must be above this (never equal). */
  readonly averageAboveCelsius: number | null;
}

/** Hold the band for `hours` without a break before each of `turns` turnings. */
export interface HoldBeforeTurnsPath extends PathBase {
  readonly kind: 'hold-before-turns';
  readonly turns: number;
}

export type RulePath = HoldPath | HoldBeforeTurnsPath;

/** One published time-temperature rule. Meeting any one of its paths is enough. */
export interface RuleSet {
  readonly id: string;
  readonly title: string;
  readonly source: string;
  readonly status: RuleStatus;
  readonly methods: readonly PileMethod[];
  /** `coolest-monitored`: every monitored zone must qualify at once, so the coolest decides. `core`: the text asks for the core. */
  readonly zones: 'coolest-monitored' | 'core';
  readonly paths: readonly [RulePath, ...RulePath[]];
  /** Least water (wet basis) while the hours are earned; only flagged, it never stops the clock. */
  readonly minimumMoistureFraction: number | null;
  readonly note: string | null;
}

/** A band of "this or hotter", with the upper end open unless given. */
export function atOrAbove(lowerCelsius: number, upperCelsius: number | null = null): TemperatureBand {
  return { lowerCelsius, lowerIncluded: true, upperCelsius };
}

/** A band of "hotter than this". */
export function above(lowerCelsius: number): TemperatureBand {
  return { lowerCelsius, lowerIncluded: false, upperCelsius: null };
}

type HoldDetails = Pick<HoldPath, 'id' | 'band' | 'hours' | 'continuity'> & Partial<Omit<HoldPath, 'kind'>>;

/** A hold path with nothing asked beyond what is given; continuity is the yard's to choose unless said otherwise. */
export function hold(details: HoldDetails): HoldPath {
  const nothingMore = { turnings: null, peak: null, averageAboveCelsius: null, preconditions: [] } as const;
  return { kind: 'hold', continuityIsPolicy: true, ...nothingMore, ...details };
}

type RuleDetails = Omit<RuleSet, 'zones' | 'minimumMoistureFraction' | 'note'> & Partial<RuleSet>;

/** A rule judged by its coolest monitored zone, without a moisture flag or a note unless given. */
export function ruleSet(details: RuleDetails): RuleSet {
  return { zones: 'coolest-monitored', minimumMoistureFraction: null, note: null, ...details };
}
