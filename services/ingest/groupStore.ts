import type { Reading } from '../../shared/readings/reading.ts';
import type { Clock } from '../clock.ts';
import type { SeriesStore } from '../series/port.ts';
import type { Settlement } from './arrivals.ts';
import type { AcceptOutcome } from './port.ts';
import type { QuarantineKeeper } from './quarantineKeeper.ts';
import type { ReadMessage } from './readMessage.ts';
import type { Counting } from './statistics.ts';

export interface PreparedMessage {
  readonly read: ReadMessage;
  readonly readings: readonly Reading[];
}

export interface GroupStoreOptions {
  readonly series: SeriesStore;
  readonly quarantine: QuarantineKeeper;
  readonly counting: Counting;
  readonly clock: Clock;
  readonly onStored?: (readings: readonly Reading[]) => void;
  readonly onFault: () => void;
}

export interface GroupStore {
  commit(group: readonly PreparedMessage[]): Promise<readonly Settlement[]>;
  settled(): Promise<void>;
}

/** Makes groups of messages durable: readings into the series store, what is wrong into quarantine. */
export function createGroupStore(options: GroupStoreOptions): GroupStore {
  let underWay: Promise<unknown> = Promise.resolve();

  async function commit(group: readonly PreparedMessage[]): Promise<readonly Settlement[]> {
    const startedMs = performance.now();
    // The appends of one turn share one transaction; each still learns what became of its own readings.
    const settlements = await Promise.allSettled(group.map((prepared) => makeDurable(prepared, options)));
    const { counts } = options.counting;
    counts.commits++;
    counts.lastCommitMilliseconds = performance.now() - startedMs;
    tell(group, settlements);
    return settlements;
  }

  function tell(group: readonly PreparedMessage[], settlements: readonly Settlement[]): void {
    const stored: Reading[] = [];
    const { counts } = options.counting;
    for (const [index, settlement] of settlements.entries()) {
      if (settlement.status === 'rejected') continue;
      options.counting.outcome(settlement.value, group[index]!.readings);
      counts.recordsIgnored += group[index]!.read.ignored;
      if (hasNews(settlement.value)) stored.push(...group[index]!.readings);
    }
    const hasFailed = settlements.some(({ status }) => status === 'rejected');
    counts.failedCommitsInRow = hasFailed ? counts.failedCommitsInRow + 1 : 0;
    if (hasFailed) options.onFault();
    if (stored.length === 0) return;
    counts.lastStoredMs = options.clock.nowMs();
    options.onStored?.(stored);
  }

  return {
    commit(group) {
      const committing = commit(group);
      underWay = committing;
      return committing;
    },
    settled: async () => {
      await underWay;
    },
  };
}

function hasNews(outcome: AcceptOutcome): boolean {
  return outcome.kind === 'stored' && outcome.stored > 0;
}

async function makeDurable(
  { read, readings }: PreparedMessage,
  { series, quarantine }: GroupStoreOptions,
): Promise<AcceptOutcome> {
  const { refused, message } = read;
  const appended = readings.length === 0 ? { stored: 0, duplicates: 0 } : await series.append(readings);
  if (refused.length === 0) return { kind: 'stored', ...pick(appended), quarantined: 0 };
  const reason = reasonOf(refused, readings.length);
  const { topic, payload } = message;
  const item = { topic, probe: read.probeId, reason, payloadStart: payload, payloadBytes: payload.length };
  await quarantine.keep(item, message.receivedMs);
  if (readings.length === 0) return { kind: 'quarantined', reason };
  return { kind: 'stored', ...pick(appended), quarantined: refused.length };
}

function pick({ stored, duplicates }: { stored: number; duplicates: number }) {
  return { stored, duplicates };
}

/** Reasons in one text, the first few in full. */
function reasonOf(refused: readonly string[], storedCount: number): string {
  const shown = refused.slice(0, 5).join('; ');
  const more = refused.length > 5 ? `; and ${refused.length - 5} more` : '';
  if (storedCount === 0) return shown + more;
  return `${refused.length} of ${refused.length + storedCount} records refused, the others stored: ${shown}${more}`;
}
