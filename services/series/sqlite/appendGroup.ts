import type { DatabaseSync, StatementSync } from 'node:sqlite';
import type { ReadingColumns } from './columns.ts';
import { inTransaction } from './database.ts';
import { addToRollups, makeRollupDeltas, type RollupDeltas } from './rollups.ts';

/** What became of each append call of one group. */
export interface GroupResult {
  readonly stored: number[];
  readonly lastSequence: number;
}

/** Stores groups of readings; prepared once, used for every commit. */
export type AppendGroup = (columns: ReadingColumns, callLengths: readonly number[]) => GroupResult;

/**
 * Prepares the write path. Each call is one transaction over readings, roll-ups and the sequence counter, flushed to
 * disk before it returns. `callLengths` says how many rows belong to each append call, in order.
 */
export function prepareAppend(database: DatabaseSync): AppendGroup {
  const insertReading = database.prepare(
    'INSERT INTO reading (channel, time_ms, sequence, raw_value, value, quality, reason) VALUES (?, ?, ?, ?, ?, ?, ?) ON CONFLICT DO NOTHING',
  );
  const readCounter = database.prepare('SELECT value FROM counter WHERE name = ?');
  const saveSequence = database.prepare(`UPDATE counter SET value = ? WHERE name = 'last-sequence'`);
  const counter = (name: string) => Number(readCounter.get(name)!.value);
  const channelId = prepareChannelIds(database);
  const saveRollups = addToRollups(database);

  return (columns, callLengths) =>
    inTransaction(database, () => {
      const state: AppendState = {
        columns,
        ids: columns.names.map(channelId),
        insertReading,
        trimmedBeforeMs: counter('trimmed-before-ms'),
        sequence: counter('last-sequence'),
        deltas: makeRollupDeltas(),
      };
      const stored = insertCalls(state, callLengths);
      saveSequence.run(state.sequence);
      saveRollups(state.deltas);
      return { stored, lastSequence: state.sequence };
    });
}

interface AppendState {
  readonly columns: ReadingColumns;
  readonly ids: readonly number[];
  readonly insertReading: StatementSync;
  readonly trimmedBeforeMs: number;
  sequence: number;
  readonly deltas: RollupDeltas;
}

function insertCalls(state: AppendState, callLengths: readonly number[]): number[] {
  let row = 0;
  return callLengths.map((length) => {
    let stored = 0;
    for (const end = row + length; row < end; row++) {
      if (insertRow(state, row)) stored++;
    }
    return stored;
  });
}

function insertRow(state: AppendState, row: number): boolean {
  const { columns } = state;
  const channel = state.ids[columns.channel[row]!]!;
  const timeMs = columns.timeMs[row]!;
  // Where retention has removed the raw reading a repeat can no longer be told from a new one: counting it would
  // spoil a roll-up that is kept for ever, and retention would take the reading away again anyway.
  if (timeMs < state.trimmedBeforeMs) return false;
  const value = columns.value[row]!;
  const quality = columns.quality[row]!;
  const { changes } = state.insertReading.run(
    channel,
    timeMs,
    state.sequence + 1,
    columns.rawValue[row]!,
    value,
    quality,
    columns.reason[row]!,
  );
  if (changes === 0) return false;
  state.sequence++;
  state.deltas.add(channel, timeMs, value, quality === 0);
  return true;
}

/**
 * Integer ids of channel names. An id is remembered only once it was read back from the table, never when it was just
 * inserted: that transaction may still roll back.
 */
function prepareChannelIds(database: DatabaseSync): (name: string) => number {
  const known = new Map<string, number>();
  const find = database.prepare('SELECT id FROM channel WHERE name = ?');
  const insert = database.prepare('INSERT INTO channel (name) VALUES (?)');
  return (name) => {
    const cached = known.get(name);
    if (cached !== undefined) return cached;
    const row = find.get(name);
    if (row === undefined) return Number(insert.run(name).lastInsertRowid);
    known.set(name, Number(row.id));
    return Number(row.id);
  };
}
