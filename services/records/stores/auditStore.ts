import type { AuditStore } from '../port.ts';
import { refusing } from '../refusals.ts';
import type { Database } from '../schema.ts';

const columns = ['yardId', 'atMs', 'by', 'role', 'action', 'target', 'detail'] as const;

export function auditStore(db: Database): AuditStore {
  return {
    async add({ yardId, atMs, by, role, action, target, detail }) {
      const row = { yardId, atMs, by, role, action, target, detail };
      await refusing(db.insertInto('auditEntries').values(row).execute(), { reference: 'yardId' });
    },
    list: (yardId, limit) =>
      db
        .selectFrom('auditEntries')
        .select(columns)
        .where('yardId', '=', yardId)
        .orderBy('sequence', 'desc')
        .limit(limit)
        .execute(),
  };
}
