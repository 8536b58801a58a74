import type { PileStatus } from '../../../shared/rules/status.ts';
import { RecordsError, type StatusStore } from '../port.ts';
import { refusing } from '../refusals.ts';
import type { Database, StatusRow } from '../schema.ts';

export function statusStore(db: Database): StatusStore {
  return {
    save: (status) => refusing(writeStatuses(db, [status]), { reference: 'pileId' }),
    forYard: (yardId) =>
      db
        .selectFrom('pileStatuses')
        .innerJoin('piles', 'piles.id', 'pileStatuses.pileId')
        .selectAll('pileStatuses')
        .where('piles.yardId', '=', yardId)
        .orderBy('pileStatuses.pileId')
        .execute(),
  };
}

/** Replaces the status of each pile, in the order of ids so that two writers never wait for each other. */
export async function writeStatuses(db: Database, statuses: readonly PileStatus[]): Promise<void> {
  for (const row of statuses.map(toRow).sort((a, b) => (a.pileId < b.pileId ? -1 : 1))) {
    await db
      .insertInto('pileStatuses')
      .values(row)
      .onConflict((conflict) => conflict.column('pileId').doUpdateSet(row))
      .execute();
  }
}

function toRow(status: PileStatus): StatusRow {
  for (const [field, value] of Object.entries(status)) {
    // SQLite would turn NaN into null, PostgreSQL would keep it: neither is what the caller meant.
    if (typeof value === 'number' && !Number.isFinite(value))
      throw new RecordsError(
        field,
        `${field} of pile ${status.pileId} is ${value}; use null for "not known"`,
      );
  }
  return {
    pileId: status.pileId,
    assessedMs: status.assessedMs,
    stage: status.stage,
    coreCelsius: status.coreCelsius,
    coreTimeMs: status.coreTimeMs,
    trendCelsiusPerHour: status.trendCelsiusPerHour,
    airCelsius: status.airCelsius,
    moistureFraction: status.moistureFraction,
    moistureTimeMs: status.moistureTimeMs,
    hoursAbove55: status.hoursAbove55,
    sanitisationProgress: status.sanitisationProgress,
    sanitisationOutcome: status.sanitisationOutcome,
    peakCelsius: status.peakCelsius,
  };
}
