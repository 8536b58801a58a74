import type { Placement } from '../../../shared/yard/yard.ts';
import { newId } from '../newId.ts';
import { type PlacementStore, RecordsError } from '../port.ts';
import { found, refusing } from '../refusals.ts';
import type { Database, Step } from '../schema.ts';

export function placementStore(db: Database): PlacementStore {
  const inOrder = db.selectFrom('placements').selectAll().orderBy('fromMs').orderBy('id');
  return {
    list: (yardId) => inOrder.where('yardId', '=', yardId).execute(),
    forPile: (pileId) => inOrder.where('pileId', '=', pileId).execute(),
    create(placement) {
      const row = { ...placement, id: newId() };
      const create = db.transaction().execute((step) => insertPlacement(step, row));
      return refusing(create, {
        unique: ['fromMs', `${row.channel} was placed elsewhere at this moment; look again`],
        reference: 'pileId',
      });
    },
    end: (id, toMs) => db.transaction().execute((step) => endPlacement(step, id, toMs)),
  };
}

async function insertPlacement(step: Step, row: Placement): Promise<Placement> {
  if (row.toMs !== null && row.toMs <= row.fromMs)
    throw new RecordsError('toMs', `toMs ${row.toMs} must be later than fromMs ${row.fromMs}`);
  await lockYard(step, row.yardId);
  await refuseOverlap(step, row);
  return step.insertInto('placements').values(row).returningAll().executeTakeFirstOrThrow();
}

async function endPlacement(step: Step, id: string, toMs: number): Promise<Placement> {
  const select = step.selectFrom('placements').selectAll().where('id', '=', id);
  const placement = found(await select.executeTakeFirst(), 'placementId', id);
  // Ending at the very start is how a placement made by mistake is taken back.
  if (toMs < placement.fromMs)
    throw new RecordsError('toMs', `toMs ${toMs} is before the placement began (${placement.fromMs})`);
  await lockYard(step, placement.yardId);
  await refuseOverlap(step, { ...placement, toMs });
  const end = step.updateTable('placements').set({ toMs }).where('id', '=', id).returningAll();
  return end.executeTakeFirstOrThrow();
}

/** Placements of a yard are made one after another, so that two people cannot both find a channel free. */
async function lockYard(step: Step, yardId: string): Promise<void> {
  const yard = step.selectFrom('yards').select('id').where('id', '=', yardId).forNoKeyUpdate();
  found(await yard.executeTakeFirst(), 'yardId', yardId);
}

async function refuseOverlap(step: Step, { id, channel, fromMs, toMs }: Placement): Promise<void> {
  const others = step
    .selectFrom('placements')
    .selectAll()
    .where('channel', '=', channel)
    .where('id', '<>', id)
    .where((other) =>
      other.or([
        other('toMs', 'is', null),
        other.and([other('toMs', '>', fromMs), other('toMs', '>', other.ref('fromMs'))]),
      ]),
    );
  const before = toMs === null ? others : others.where('fromMs', '<', toMs);
  const taken = await before.executeTakeFirst();
  if (taken === undefined || toMs === fromMs) return;
  throw new RecordsError(
    'fromMs',
    `${channel} is placed elsewhere from ${taken.fromMs} to ${taken.toMs ?? 'now'}: end that placement first`,
  );
}
