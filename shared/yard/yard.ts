import type { PileBuild } from './build.ts';
import type { PileMethod } from './method.ts';

/** Identifiers are short opaque strings made by the records service; they never carry meaning. */
export type YardId = string;
export type PileId = string;
export type ProbeId = string;
/** Full SenML name of one series, e.g. `urn:dev:ow:28139bbb0b00001f_core` (RFC 8428 section 4.5.1, RFC 9039). */
export type ChannelName = string;

export type TemperatureUnit = 'C' | 'F';

/** One site. */
export interface Yard {
  readonly id: YardId;
  readonly name: string;
  /** IANA time zone; every time a person sees is shown in it. */
  readonly timeZone: string;
  readonly temperatureUnit: TemperatureUnit;
  readonly altitudeMetres: number;
}

/** One mass of material from building to finish. A place is reused; a pile is not. */
export interface Pile {
  readonly id: PileId;
  readonly yardId: YardId;
  readonly name: string;
  /** Where it stands: "bay 3", "east fence". */
  readonly place: string;
  readonly method: PileMethod;
  readonly startedMs: number;
  readonly endedMs: number | null;
  /** Left out where nobody wrote it down. */
  readonly build?: PileBuild | null | undefined;
}

export const positions = ['core', 'shoulder', 'edge', 'base', 'air'] as const;
export type Position = (typeof positions)[number];

export const quantities = [
  'temperature',
  'moisture',
  'relative-humidity',
  'battery',
  'voltage',
  'other',
] as const;
export type Quantity = (typeof quantities)[number];

/**
 * A channel at a position during a stretch of time: probes are moved between piles. `pileId` is null for a sensor
 * that belongs to the yard (its air). `toMs` is exclusive; null while it still stands there.
 */
export interface Placement {
  readonly id: string;
  readonly yardId: YardId;
  readonly pileId: PileId | null;
  readonly channel: ChannelName;
  readonly quantity: Quantity;
  readonly position: Position;
  readonly depthMetres: number | null;
  readonly fromMs: number;
  readonly toMs: number | null;
}

export const stages = ['lag', 'heating', 'hot', 'cooling', 'curing', 'finished'] as const;
export type Stage = (typeof stages)[number];
