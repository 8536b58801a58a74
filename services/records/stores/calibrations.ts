import { type Expression, type ExpressionBuilder, type SqlBool, sql } from 'kysely';
import { type ProbeStore, RecordsError } from '../port.ts';
import type { Database, Schema } from '../schema.ts';

const columns = ['channel', 'gain', 'offset', 'calibratedMs', 'dueMs'] as const;

/** Calibrations of channels. Every one is kept; the latest of each channel is the one that counts. */
export function calibrationSide(db: Database): Pick<ProbeStore, 'calibrations' | 'saveCalibration'> {
  return {
    async calibrations(yardId) {
      const rows = await db
        .selectFrom('calibrations')
        .select(columns)
        .where((calibration) => belongsTo(calibration, yardId))
        .orderBy('channel')
        .orderBy('calibratedMs')
        .execute();
      return [...new Map(rows.map((row) => [row.channel, row])).values()];
    },
    async saveCalibration({ channel, gain, offset, calibratedMs, dueMs }) {
      if (!Number.isFinite(gain) || gain === 0 || !Number.isFinite(offset))
        throw new RecordsError('gain', `gain ${gain} and offset ${offset} must be numbers, the gain not 0`);
      await refuseUnknownChannel(db, channel);
      const row = { channel, gain, offset, calibratedMs, dueMs };
      await db
        .insertInto('calibrations')
        .values(row)
        .onConflict((conflict) => conflict.columns(['channel', 'calibratedMs']).doUpdateSet(row))
        .execute();
    },
  };
}

/** A channel is a yard's when it stands there or bears the name of one of its probes (`<probe>_<channel>`, RFC 9039). */
function belongsTo(
  calibration: ExpressionBuilder<Schema, 'calibrations'>,
  yardId: string,
): Expression<SqlBool> {
  const placed = calibration.selectFrom('placements').select('channel').where('yardId', '=', yardId);
  const probes = calibration
    .selectFrom('probes')
    .select('probes.id')
    .where('probes.yardId', '=', yardId)
    .where((probe) => bearsNameOf(probe.ref('calibrations.channel'), probe.ref('probes.id')));
  return calibration.or([calibration('calibrations.channel', 'in', placed), calibration.exists(probes)]);
}

const bearsNameOf = (channel: Expression<string>, probe: Expression<string>): Expression<SqlBool> =>
  sql<SqlBool>`substr(${channel}, 1, length(${probe}) + 1) = ${probe} || '_'`;

/** Otherwise it would be stored and never be found again. */
async function refuseUnknownChannel(db: Database, channel: string): Promise<void> {
  const placed = await db
    .selectFrom('placements')
    .select('id')
    .where('channel', '=', channel)
    .executeTakeFirst();
  if (placed) return;
  const own = await db
    .selectFrom('probes')
    .select('id')
    .where((probe) => bearsNameOf(sql`cast(${channel} as text)`, probe.ref('id')))
    .executeTakeFirst();
  if (!own) throw new RecordsError('channel', `no probe or placement has a channel ${channel}`);
}
