import type { ProbeId, YardId } from '../../../shared/yard/yard.ts';
import type { Calibration } from './yard.ts';

/** A device that may publish. Its secret is random (128 bits or more), shown once, stored as a SHA-256 hash. */
export interface Probe {
  /** DEV URN (RFC 9039), also its MQTT user name. */
  readonly id: ProbeId;
  readonly yardId: YardId;
  readonly label: string;
  readonly createdMs: number;
  readonly revokedMs: number | null;
  /** Longest gap between readings that is normal for it; null = learn from what it sends (SenML `ut`) or the yard's default. */
  readonly expectedIntervalSeconds: number | null;
}

export interface ProbeStore {
  list(yardId: YardId): Promise<Probe[]>;
  get(id: ProbeId): Promise<Probe | null>;
  create(probe: Omit<Probe, 'revokedMs'>, secretHash: string): Promise<Probe>;
  /** Gives a new secret, also to a revoked probe, which may then publish again. */
  setSecret(id: ProbeId, secretHash: string): Promise<void>;
  /** Null when the probe is unknown or revoked: it may not publish. */
  secretHash(id: ProbeId): Promise<string | null>;
  revoke(id: ProbeId, atMs: number): Promise<void>;
  /** Latest calibration of each channel that is placed in the yard or bears the name of one of its probes. */
  calibrations(yardId: YardId): Promise<Calibration[]>;
  /** Refuses (RecordsError on `channel`) a channel of no known probe or placement. */
  saveCalibration(calibration: Calibration): Promise<void>;
}

/** What could not be taken in, kept for a person to look at. */
export interface QuarantineItem {
  readonly id: number;
  readonly receivedMs: number;
  readonly topic: string;
  readonly probe: string | null;
  readonly reason: string;
  /** Start of the payload, at most a few kB. */
  readonly payloadStart: Uint8Array;
  readonly payloadBytes: number;
}

export interface QuarantineStore {
  /**
   * Keeps it for the yard it belongs to and returns that: the yard of its probe, else the one its topic names, else the
   * only one there is. Null when nobody can say; then no yard's people are shown it, and it is only counted and logged.
   * A yard's oldest items leave when it has more than the configured number: no yard pushes out what is another's.
   */
  add(item: Omit<QuarantineItem, 'id'>): Promise<YardId | null>;
  /** Of one yard, newest first. */
  list(yardId: YardId, limit: number): Promise<QuarantineItem[]>;
  /** How many a yard has ever had, not only those still kept. */
  totalOf(yardId: YardId): Promise<number>;
  /** How many there have ever been, also those of nobody. */
  total(): Promise<number>;
}
