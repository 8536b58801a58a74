import { type LeaseGrant, LeaseLost, type LeaseStore, type ProcessStore } from '../port.ts';
import type { Database, Step } from '../schema.ts';

export function leaseStore(db: Database): LeaseStore {
  return {
    async ensure(names) {
      if (names.length === 0) return;
      const rows = names.map((name) => ({ name, holder: null, fence: 0, beat: 0 }));
      await db
        .insertInto('leases')
        .values(rows)
        .onConflict((conflict) => conflict.doNothing())
        .execute();
    },
    list: () => db.selectFrom('leases').selectAll().orderBy('name').execute(),
    async take({ name, fence, beat }, holder) {
      const taken = await db
        .updateTable('leases')
        .set({ holder, fence: fence + 1, beat: beat + 1 })
        .where('name', '=', name)
        .where('fence', '=', fence)
        .where('beat', '=', beat)
        .returning('name')
        .executeTakeFirst();
      return taken === undefined ? null : { name, holder, fence: fence + 1 };
    },
    async renew(grants) {
      const [first] = grants;
      if (first === undefined) return [];
      const fences = new Map(grants.map(({ name, fence }) => [name, fence]));
      const rows = await db
        .updateTable('leases')
        .set((lease) => ({ beat: lease('beat', '+', 1) }))
        .where('holder', '=', first.holder)
        .where('name', 'in', [...fences.keys()])
        .returning(['name', 'fence'])
        .execute();
      return rows.filter(({ name, fence }) => fences.get(name) === fence).map(({ name }) => name);
    },
    async release({ name, holder, fence }) {
      await db
        .updateTable('leases')
        .set((lease) => ({ holder: null, beat: lease('beat', '+', 1) }))
        .where('name', '=', name)
        .where('holder', '=', holder)
        .where('fence', '=', fence)
        .execute();
    },
  };
}

/**
 * Part of the transaction of whatever is done under a lease: the row stays locked until the end, so whoever would take it
 * waits, and a holder that slept through its lease finds another fence here and stores nothing.
 */
export async function checkLease(step: Step, { name, holder, fence }: LeaseGrant): Promise<void> {
  const held = await step
    .selectFrom('leases')
    .select('name')
    .where('name', '=', name)
    .where('holder', '=', holder)
    .where('fence', '=', fence)
    .forUpdate()
    .executeTakeFirst();
  if (held === undefined) throw new LeaseLost(name);
}

export function processStore(db: Database): ProcessStore {
  return {
    async beat(id, standing) {
      await db
        .insertInto('processes')
        .values({ id, standing, beat: 1 })
        .onConflict((conflict) =>
          conflict.column('id').doUpdateSet((row) => ({ standing, beat: row('processes.beat', '+', 1) })),
        )
        .execute();
    },
    list: () => db.selectFrom('processes').selectAll().orderBy('id').execute(),
    async forget({ id, beat }) {
      await db.deleteFrom('processes').where('id', '=', id).where('beat', '=', beat).execute();
    },
  };
}
