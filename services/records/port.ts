/**
 * The port of the records service: everything that is not a reading. Interfaces only; `openRecords.ts` makes one over
 * SQLite or PostgreSQL and `tests/contract/recordsContract.ts` says how both must behave.
 */
import type { AlarmStore } from './port/alarms.ts';
import type { ContactWayStore, DutyStore, InboundTextStore, WordingStore } from './port/duty.ts';
import type { MessageStore } from './port/messages.ts';
import type { AuditStore, PeopleStore, SessionStore, SetupLinkStore, WallLinkStore } from './port/people.ts';
import type { ProbeStore, QuarantineStore } from './port/probes.ts';
import type { DeedStore, ErrandStore, LeaseStore, ProcessStore } from './port/sharing.ts';
import type {
  DesignStore,
  JournalStore,
  LimitsStore,
  PileStore,
  PlacementStore,
  StatusStore,
  YardStore,
} from './port/yard.ts';

export { isDatabaseAway } from './databaseAway.ts';
export { newId } from './newId.ts';
export * from './port/alarms.ts';
export * from './port/duty.ts';
export * from './port/messages.ts';
export * from './port/people.ts';
export * from './port/probes.ts';
export * from './port/sharing.ts';
export * from './port/transfer.ts';
export * from './port/yard.ts';

export interface Records {
  readonly yards: YardStore;
  readonly piles: PileStore;
  readonly placements: PlacementStore;
  readonly limits: LimitsStore;
  readonly journal: JournalStore;
  readonly designs: DesignStore;
  readonly statuses: StatusStore;
  readonly alarms: AlarmStore;
  readonly messages: MessageStore;
  readonly duty: DutyStore;
  readonly wordings: WordingStore;
  readonly ways: ContactWayStore;
  readonly inbound: InboundTextStore;
  readonly people: PeopleStore;
  readonly sessions: SessionStore;
  readonly setupLinks: SetupLinkStore;
  readonly wallLinks: WallLinkStore;
  readonly audit: AuditStore;
  readonly probes: ProbeStore;
  readonly quarantine: QuarantineStore;
  /** Small durable values of services: cursors, last-run times. */
  readonly marks: MarkStore;
  /** Who of several processes holds which work. */
  readonly leases: LeaseStore;
  readonly processes: ProcessStore;
  /** What people asked of whoever judges, where that is another process. */
  readonly deeds: DeedStore;
  /** What people asked of the channels, where another process sends. */
  readonly errands: ErrandStore;
  close(): Promise<void>;
}

export interface MarkStore {
  get(name: string): Promise<string | null>;
  /** Every mark whose name begins like this. */
  withPrefix(prefix: string): Promise<Map<string, string>>;
  set(name: string, value: string): Promise<void>;
  /** Sets it if it is not set yet; gives back what is stored then, whoever was first. */
  setOnce(name: string, value: string): Promise<string>;
}

/** Thrown when a row changed under the caller: read again and retry. */
export class VersionConflict extends Error {
  override readonly name = 'VersionConflict';
}

/** Thrown when what is asked for does not exist or breaks a rule of the records; `field` names what is wrong. */
export class RecordsError extends Error {
  override readonly name = 'RecordsError';
  readonly field: string;
  constructor(field: string, message: string) {
    super(message);
    this.field = field;
  }
}
