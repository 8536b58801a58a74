import type { ExpressionBuilder, OnConflictDatabase, OnConflictTables } from 'kysely';
import type { PileStatus } from '../../../shared/rules/status.ts';
import { RecordsError, type StatusStore } from '../port.ts';
import { refusing } from '../refusals.ts';
import type { Database, Schema, StatusRow } from '../schema.ts';

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

/**
 * Replaces the status of each pile, in the order of ids so that two writers never wait for each other. All in one
 * statement: statuses are most of what a large yard writes (`npm run bench scale`). Of two for one pile the last counts.
 */
export async function writeStatuses(db: Database, statuses: readonly PileStatus[]): Promise<void> {
  const byPile = new Map(statuses.map((status) => [status.pileId, toRow(status)]));
  const rows = [...byPile.values()].sort((a, b) => (a.pileId < b.pileId ? -1 : 1));
  for (let from = 0; from < rows.length; from += rowsAtOnce) {
    const some = rows.slice(from, from + rowsAtOnce);
    await db
      .insertInto('pileStatuses')
      .values(some)
      .onConflict((conflict) => conflict.column('pileId').doUpdateSet(takeNew))
      .execute();
  }
}

/** Well within the parameters one statement may have on either database. */
const rowsAtOnce = 500;

/** Every column but the key, as the row that came in has it. */
function takeNew(
  row: ExpressionBuilder<OnConflictDatabase<Schema, 'pileStatuses'>, OnConflictTables<'pileStatuses'>>,
) {
  return {
    assessedMs: row.ref('excluded.assessedMs'),
    stage: row.ref('excluded.stage'),
    coreCelsius: row.ref('excluded.coreCelsius'),
    coreTimeMs: row.ref('excluded.coreTimeMs'),
    trendCelsiusPerHour: row.ref('excluded.trendCelsiusPerHour'),
    airCelsius: row.ref('excluded.airCelsius'),
    moistureFraction: row.ref('excluded.moistureFraction'),
    moistureTimeMs: row.ref('excluded.moistureTimeMs'),
    hoursAbove55: row.ref('excluded.hoursAbove55'),
    sanitisationProgress: row.ref('excluded.sanitisationProgress'),
    sanitisationOutcome: row.ref('excluded.sanitisationOutcome'),
    peakCelsius: row.ref('excluded.peakCelsius'),
  } satisfies Record<Exclude<keyof StatusRow, 'pileId'>, unknown>;
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
