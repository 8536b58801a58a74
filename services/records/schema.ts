import type { Generated, Kysely, Transaction } from 'kysely';
import type { AlarmState, AlarmTransition, ConditionId, Priority } from '../../shared/alarms/alarm.ts';
import type { SanitisationOutcome } from '../../shared/compost/sanitisation/result.ts';
import type { Language } from '../../shared/messages/words/languages.ts';
import type { JournalKind } from '../../shared/yard/journal.ts';
import type { PileMethod } from '../../shared/yard/method.ts';
import type { Role } from '../../shared/yard/people.ts';
import type { Position, Quantity, Stage, TemperatureUnit } from '../../shared/yard/yard.ts';
import type { ChannelKind, HeldFor, MessageKind, MessageState, SetupLink } from './port.ts';

/**
 * The tables as this version of the program sees them, one schema for both dialects. Column names here are camel case;
 * in the database they are snake case (kysely's CamelCasePlugin translates). Booleans are 0 or 1, JSON is text, times are
 * epoch milliseconds. Columns of a domain union are trusted: only these stores write them.
 */
export interface Schema {
  yards: YardRow;
  piles: PileRow;
  placements: PlacementRow;
  limitsVersions: LimitsRow;
  journalEntries: JournalRow;
  journalPhotos: PhotoRow;
  pileDesigns: DesignRow;
  pileStatuses: StatusRow;
  alarms: AlarmRow;
  alarmTransitions: TransitionRow;
  answerLinks: AnswerLinkRow;
  messages: MessageRow;
  messageAttempts: MessageAttemptRow;
  dutyPlans: DutyPlanRow;
  wordings: WordingsRow;
  contactWays: ContactWayRow;
  inboundTexts: InboundTextRow;
  people: PersonRow;
  sessions: SessionRow;
  setupLinks: SetupLinkRow;
  wallLinks: WallLinkRow;
  auditEntries: AuditRow;
  probes: ProbeRow;
  calibrations: CalibrationRow;
  quarantine: QuarantineRow;
  counters: { name: string; value: number };
  marks: { name: string; value: string };
  leases: { name: string; holder: string | null; fence: number; beat: number };
  processes: { id: string; standing: string; beat: number };
  deeds: DeedRow;
  errands: ErrandRow;
}

export type Database = Kysely<Schema>;
export type Step = Transaction<Schema>;

/** `taken` is 0 or 1; `answer` is JSON of whoever did it. */
export interface ErrandRow {
  id: string;
  channel: ChannelKind;
  address: string | null;
  createdMs: number;
  taken: number;
  answer: string | null;
}

/** `event` and `answer` are JSON. */
export interface DeedRow {
  id: string;
  yardId: string;
  alarmId: string;
  event: string;
  createdMs: number;
  answer: string | null;
}

export interface YardRow {
  id: string;
  name: string;
  timeZone: string;
  temperatureUnit: TemperatureUnit;
  altitudeMetres: number;
}

export interface PileRow {
  id: string;
  yardId: string;
  name: string;
  place: string;
  method: PileMethod;
  startedMs: number;
  endedMs: number | null;
  /** JSON of a `PileBuild`; null where nobody wrote it down. */
  build: string | null;
}

export interface PlacementRow {
  id: string;
  yardId: string;
  pileId: string | null;
  channel: string;
  quantity: Quantity;
  position: Position;
  depthMetres: number | null;
  fromMs: number;
  toMs: number | null;
}

export interface LimitsRow {
  pileId: string;
  version: number;
  overrides: string;
  reason: string;
  by: string | null;
  savedMs: number;
}

export interface JournalRow {
  id: string;
  pileId: string;
  timeMs: number;
  kind: JournalKind;
  value: number | null;
  note: string;
  by: string | null;
  recordedAtMs: number;
  depthMetres: number | null;
  pressKey: string | null;
  takenBackMs: number | null;
}

export interface PhotoRow {
  entryId: string;
  widthPixels: number;
  heightPixels: number;
  jpeg: Uint8Array;
}

export interface DesignRow {
  pileId: string;
  design: string;
  savedMs: number;
}

export interface StatusRow {
  pileId: string;
  assessedMs: number;
  stage: Stage | null;
  coreCelsius: number | null;
  coreTimeMs: number | null;
  trendCelsiusPerHour: number | null;
  airCelsius: number | null;
  moistureFraction: number | null;
  moistureTimeMs: number | null;
  hoursAbove55: number;
  sanitisationProgress: number | null;
  sanitisationOutcome: SanitisationOutcome | null;
  peakCelsius: number | null;
}

export interface AlarmRow {
  id: string;
  yardId: string;
  subjectKind: 'pile' | 'probe' | 'yard';
  subjectId: string;
  condition: ConditionId;
  state: AlarmState;
  priority: Priority;
  active: number;
  beyondSinceMs: number | null;
  backSinceMs: number | null;
  occurrence: number;
  code: string;
  activeSinceMs: number | null;
  returnedMs: number | null;
  acknowledgedMs: number | null;
  acknowledgedBy: string | null;
  shelvedUntilMs: number | null;
  hiddenReason: string | null;
  limitsVersion: number;
  evidence: string;
  version: number;
}

export interface TransitionRow {
  sequence: Generated<number>;
  alarmId: string;
  occurrence: number;
  atMs: number;
  event: AlarmTransition['event'];
  fromState: AlarmState;
  toState: AlarmState;
  by: string | null;
  note: string | null;
  limitsVersion: number;
  evidence: string;
}

export interface AnswerLinkRow {
  tokenHash: string;
  alarmId: string;
  occurrence: number;
  personId: string;
  expiresMs: number;
}

export interface MessageRow {
  /** Order in which messages were written; ids carry no order. */
  sequence: Generated<number>;
  id: string;
  yardId: string;
  pileId: string | null;
  alarmId: string | null;
  occurrence: number | null;
  idempotencyKey: string;
  personId: string;
  channel: ChannelKind;
  address: string;
  text: string;
  priority: Priority;
  createdMs: number;
  notBeforeMs: number;
  expiresMs: number;
  state: MessageState;
  attempts: number;
  nextAttemptMs: number;
  gatewayReference: string | null;
  finishedMs: number | null;
  claimedBy: string | null;
  leaseUntilMs: number | null;
  kind: MessageKind;
  /** The attempt now under way was begun then; null before its first byte leaves. */
  attemptBeganMs: number | null;
  maybeSent: number;
  heldFor: HeldFor | null;
  toldIn: string | null;
  firstAction: string | null;
}

export interface MessageAttemptRow {
  sequence: Generated<number>;
  messageId: string;
  attempt: number;
  startedMs: number;
  finishedMs: number;
  outcome: 'sent' | 'retry' | 'gave-up';
  detail: string;
  maybeSent: number;
}

export interface WordingsRow {
  yardId: string;
  version: number;
  overrides: string;
  by: string | null;
  savedMs: number;
}

export interface DutyPlanRow {
  yardId: string;
  version: number;
  plan: string;
  by: string | null;
  savedMs: number;
}

export interface ContactWayRow {
  id: string;
  personId: string;
  channel: ChannelKind;
  address: string;
  toldFrom: Priority;
  createdMs: number;
  goneMs: number | null;
  goneDetail: string | null;
}

export interface InboundTextRow {
  sequence: Generated<number>;
  key: string;
  personId: string;
  address: string;
  text: string;
  receivedMs: number;
  doneMs: number | null;
  outcome: string | null;
}

export interface PersonRow {
  id: string;
  yardId: string;
  login: string;
  name: string;
  role: Role;
  phone: string | null;
  receivesTexts: number;
  textsFrom: Priority;
  disabled: number;
  language: Language;
  passwordHash: string | null;
}

export interface SessionRow {
  tokenHash: string;
  personId: string;
  createdMs: number;
  lastUsedMs: number;
  expiresMs: number;
  confirmedMs: number | null;
}

export interface SetupLinkRow {
  tokenHash: string;
  purpose: SetupLink['purpose'];
  personId: string | null;
  expiresMs: number;
}

export interface WallLinkRow {
  id: string;
  yardId: string;
  tokenHash: string;
  label: string;
  createdMs: number;
  createdBy: string;
  revokedMs: number | null;
}

export interface AuditRow {
  sequence: Generated<number>;
  yardId: string | null;
  atMs: number;
  by: string | null;
  role: Role | 'system';
  action: string;
  target: string;
  detail: string;
}

export interface ProbeRow {
  id: string;
  yardId: string;
  label: string;
  createdMs: number;
  revokedMs: number | null;
  expectedIntervalSeconds: number | null;
  secretHash: string;
}

export interface CalibrationRow {
  channel: string;
  gain: number;
  offset: number;
  calibratedMs: number;
  dueMs: number | null;
}

export interface QuarantineRow {
  id: number;
  yardId: string | null;
  receivedMs: number;
  topic: string;
  probe: string | null;
  reason: string;
  payloadStart: Uint8Array;
  payloadBytes: number;
}
