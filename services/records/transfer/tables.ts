import type { Schema } from '../schema.ts';

/** A row on its way; values are what the database holds. */
export type Row = Readonly<Record<string, unknown>>;

/** How one table leaves the house and comes into another. */
export interface OpenTable {
  /** Columns that put rows in one order; `sequence` itself stays behind and is made anew in the same order. */
  readonly order: readonly string[];
  /** Columns that stay behind: secrets, and what only this program in this place can use. */
  readonly without?: readonly string[];
  /** Columns that hold JSON as text, and bytes. */
  readonly json?: readonly string[];
  readonly bytes?: readonly string[];
  /** How many rows are read at once, where they are large. */
  readonly rowsAtOnce?: number;
  /** False for rows that stay behind. */
  readonly leaves?: (row: Row) => boolean;
  /** Takes secrets out of what leaves. */
  readonly clean?: (row: Row) => Row;
  /** What comes in place of what stayed behind. */
  readonly arrive?: (row: Row) => Row;
}

/** SHA-256 in hex; nobody knows a text with this sum, so a probe that came in an import needs a new secret. */
const nobodysHash = '0'.repeat(64);
const capabilityChannels = ['web-push', 'webhook'];
const cursorMark = 'rules:cursor';

/**
 * Every table there is, in an order in which rows may refer to those before them; a string says why a table stays behind.
 * The type makes whoever adds a table decide.
 */
export const openTables: Readonly<Record<keyof Schema, OpenTable | string>> = {
  yards: { order: ['id'] },
  people: { order: ['id'], without: ['passwordHash'], arrive: (row) => ({ ...row, passwordHash: null }) },
  contactWays: { order: ['id'], leaves: (row) => !isCapability(row) },
  dutyPlans: { order: ['yardId', 'version'], json: ['plan'] },
  wordings: { order: ['yardId', 'version'], json: ['overrides'] },
  inboundTexts: { order: ['sequence'] },
  piles: { order: ['id'], json: ['build'] },
  placements: { order: ['id'] },
  limitsVersions: { order: ['pileId', 'version'], json: ['overrides'] },
  journalEntries: { order: ['timeMs', 'id'] },
  journalPhotos: { order: ['entryId'], bytes: ['jpeg'], rowsAtOnce: 20 },
  pileDesigns: { order: ['pileId'], json: ['design'] },
  pileStatuses: { order: ['pileId'] },
  probes: {
    order: ['id'],
    without: ['secretHash'],
    arrive: (row) => ({ ...row, secretHash: nobodysHash }),
  },
  calibrations: { order: ['channel', 'calibratedMs'] },
  alarms: { order: ['id'], json: ['evidence'] },
  alarmTransitions: { order: ['sequence'], json: ['evidence'] },
  messages: {
    order: ['sequence'],
    without: ['claimedBy', 'leaseUntilMs'],
    clean: cleanMessage,
    arrive: expireUnsent,
  },
  messageAttempts: { order: ['sequence'] },
  auditEntries: { order: ['sequence'] },
  quarantine: { order: ['id'], bytes: ['payloadStart'] },
  counters: { order: ['name'] },
  // The cursor counts readings as this store holds them, and other marks hold keys.
  marks: {
    order: ['name'],
    leaves: ({ name }) => String(name).startsWith('rules:') && !String(name).startsWith(cursorMark),
  },
  sessions: 'who is signed in just now',
  setupLinks: 'one-time links',
  answerLinks: 'the secrets of links in texts',
  wallLinks: 'links of wall screens: make new ones',
  leases: 'which process does what just now',
  processes: 'which processes run just now',
  deeds: 'what people asked a moment ago',
  errands: 'what people asked of the channels a moment ago',
};

/** In words for people: what nobody finds in an export. */
export const leftOut: readonly string[] = [
  'passwords: owners get a one-time link when the export is imported',
  'secrets of probes: each probe needs a new one, under Manage, Probes',
  'browsers and web addresses that are sent messages: they hold keys',
  ...Object.values(openTables).filter((treatment) => typeof treatment === 'string'),
];

function isCapability({ channel }: Row): boolean {
  return capabilityChannels.includes(String(channel));
}

/** A link in a text acts for whom it was sent to, and the address of a browser or a web hook is a key in itself. */
function cleanMessage(row: Row): Row {
  const text = String(row.text).replaceAll(/\/a\/[A-Za-z0-9_-]{8,}/g, '/a/...');
  return { ...row, text, address: isCapability(row) ? '(hidden)' : row.address };
}

/** What was not sent in one place is not sent by another: it would come twice, or out of the blue. */
function expireUnsent(row: Row): Row {
  const isUnsent = row.state === 'waiting' || row.state === 'sending';
  const own = isUnsent ? { ...row, state: 'expired', finishedMs: row.expiresMs } : row;
  return { ...own, claimedBy: null, leaseUntilMs: null };
}
