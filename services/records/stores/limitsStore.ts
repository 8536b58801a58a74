import { overridesColumn } from '../json.ts';
import { type LimitsStore, type LimitsVersion, VersionConflict } from '../port.ts';
import { found } from '../refusals.ts';
import type { Database, LimitsRow, Step } from '../schema.ts';

export function limitsStore(db: Database): LimitsStore {
  return {
    async current(pileId) {
      const saved = await newest(db, pileId);
      return saved ? fromRow(saved) : methodDefaults(db, pileId);
    },
    async forYard(yardId) {
      const rows = await db
        .selectFrom('limitsVersions')
        .innerJoin('piles', 'piles.id', 'limitsVersions.pileId')
        .selectAll('limitsVersions')
        .where('piles.yardId', '=', yardId)
        .orderBy('version')
        .execute();
      return [...new Map(rows.map((row) => [row.pileId, fromRow(row)])).values()];
    },
    async history(pileId) {
      const versions = db.selectFrom('limitsVersions').selectAll().where('pileId', '=', pileId);
      return (await versions.orderBy('version', 'desc').execute()).map(fromRow);
    },
    save: (change) => db.transaction().execute((step) => saveNext(step, change)),
  };
}

const newest = (db: Database, pileId: string) =>
  db
    .selectFrom('limitsVersions')
    .selectAll()
    .where('pileId', '=', pileId)
    .orderBy('version', 'desc')
    .limit(1)
    .executeTakeFirst();

/** Version 0: nobody has changed anything since the pile was started. */
async function methodDefaults(db: Database, pileId: string): Promise<LimitsVersion> {
  const pile = db.selectFrom('piles').select('startedMs').where('id', '=', pileId);
  const { startedMs } = found(await pile.executeTakeFirst(), 'pileId', pileId);
  return { pileId, version: 0, overrides: {}, reason: '', by: null, savedMs: startedMs };
}

async function saveNext(step: Step, change: Parameters<LimitsStore['save']>[0]): Promise<LimitsVersion> {
  const { pileId, expectedVersion, overrides, reason, by, savedMs } = change;
  // The pile's row is the lock: whoever comes second sees the first one's version.
  const pile = step.selectFrom('piles').select('id').where('id', '=', pileId).forNoKeyUpdate();
  found(await pile.executeTakeFirst(), 'pileId', pileId);
  const version = (await newest(step, pileId))?.version ?? 0;
  if (version !== expectedVersion)
    throw new VersionConflict(
      `the limits are at version ${version}, not ${expectedVersion}: look at them again`,
    );
  const text = overridesColumn.write(overrides, 'overrides');
  const row = { pileId, version: version + 1, overrides: text, reason, by, savedMs };
  await step.insertInto('limitsVersions').values(row).execute();
  return fromRow(row);
}

const fromRow = (row: LimitsRow): LimitsVersion => ({
  ...row,
  overrides: overridesColumn.read(row.overrides),
});
