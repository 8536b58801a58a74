import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { openRecords } from '../../../services/records/openRecords.ts';
import { openSqliteSeries } from '../../../services/series/openSqliteSeries.ts';
import type { Reading } from '../../../shared/readings/reading.ts';

export const probeOf = (number: number): string => `urn:dev:ow:28139bbb${String(number).padStart(8, '0')}`;
export const coreOf = (number: number): string => `${probeOf(number)}_core`;
export const airChannel = `${probeOf(99_999_999)}_air`;

/** A pile's core, around 58 C; every two-hundredth pile is too hot. */
export function coreAt(number: number, minute: number): number {
  const middle = number % 200 === 7 ? 73 : 50 + (number % 16);
  return middle + Math.sin(minute / 60 + number) * 0.5;
}

export const readingOf = (channel: string, timeMs: number, value: number): Reading => ({
  channel,
  timeMs,
  rawValue: value,
  value,
  quality: 'good',
  reason: null,
});

const dayMs = 86_400_000;
const hoursOfPast = 12;

/**
 * Makes a yard of many piles, each with a probe that has sent every half an hour for half a day, and the yard's air.
 * Rows go in by one statement of plain SQL: ten thousand piles one by one would take minutes, and are not what is measured.
 */
export async function prepareYard(folder: string, piles: number, nowMs: number): Promise<void> {
  const file = join(folder, 'records.sqlite');
  const records = await openRecords({ kind: 'sqlite', file });
  const place = { timeZone: 'Europe/London', temperatureUnit: 'C', altitudeMetres: 3 } as const;
  const yard = await records.yards.create({ name: 'Gannet Row', ...place });
  writeRows(file, yard.id, piles, nowMs - 5 * dayMs);
  // As after any other stop: what is stored has been taken in.
  await records.marks.set('rules:cursor', String(await writePast(folder, piles, nowMs)));
  await records.close();
}

function writeRows(file: string, yardId: string, piles: number, startedMs: number): void {
  const database = new DatabaseSync(file);
  const pile = database.prepare(
    `INSERT INTO piles (id, yard_id, name, place, method, started_ms) VALUES (?, ?, ?, 'bay', 'turned-windrow', ?)`,
  );
  const probe = database.prepare(
    `INSERT INTO probes (id, yard_id, label, created_ms, expected_interval_seconds, secret_hash) VALUES (?, ?, ?, ?, 60, '')`,
  );
  const placement = database.prepare(
    `INSERT INTO placements (id, yard_id, pile_id, channel, quantity, position, depth_metres, from_ms)
     VALUES (?, ?, ?, ?, 'temperature', ?, 0.6, ?)`,
  );
  database.exec('BEGIN');
  for (let number = 0; number < piles; number += 1) {
    pile.run(`pile${number}`, yardId, `Pile ${number}`, startedMs);
    probe.run(probeOf(number), yardId, `Probe ${number}`, startedMs);
    placement.run(`place${number}`, yardId, `pile${number}`, coreOf(number), 'core', startedMs);
  }
  probe.run(probeOf(99_999_999), yardId, 'Air', startedMs);
  placement.run('air', yardId, null, airChannel, 'air', startedMs);
  database.exec('COMMIT');
  database.close();
}

async function writePast(folder: string, piles: number, nowMs: number): Promise<number> {
  let lastSequence = 0;
  const series = await openSqliteSeries({ file: join(folder, 'series.sqlite') });
  for (let minutes = hoursOfPast * 60; minutes > 0; minutes -= 30) {
    const timeMs = nowMs - minutes * 60_000;
    const readings = [readingOf(airChannel, timeMs, 9)];
    for (let number = 0; number < piles; number += 1)
      readings.push(readingOf(coreOf(number), timeMs, coreAt(number, -minutes)));
    ({ lastSequence } = await series.append(readings));
  }
  await series.close();
  return lastSequence;
}
