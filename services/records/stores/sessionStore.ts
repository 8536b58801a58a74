import type { SessionStore } from '../port.ts';
import { refusing } from '../refusals.ts';
import type { Database } from '../schema.ts';

export function sessionStore(db: Database): SessionStore {
  return {
    async create({ tokenHash, personId, createdMs, lastUsedMs, expiresMs }) {
      const row = { tokenHash, personId, createdMs, lastUsedMs, expiresMs, confirmedMs: createdMs };
      await refusing(db.insertInto('sessions').values(row).execute(), { reference: 'personId' });
    },
    async get(tokenHash) {
      const session = db.selectFrom('sessions').selectAll().where('tokenHash', '=', tokenHash);
      return (await session.executeTakeFirst()) ?? null;
    },
    async touch(tokenHash, lastUsedMs) {
      await db.updateTable('sessions').set({ lastUsedMs }).where('tokenHash', '=', tokenHash).execute();
    },
    async confirm(tokenHash, confirmedMs) {
      await db.updateTable('sessions').set({ confirmedMs }).where('tokenHash', '=', tokenHash).execute();
    },
    async end(tokenHash) {
      await db.deleteFrom('sessions').where('tokenHash', '=', tokenHash).execute();
    },
    async endAllOf(personId) {
      await db.deleteFrom('sessions').where('personId', '=', personId).execute();
    },
    async removeExpired(nowMs) {
      const remove = db.deleteFrom('sessions').where('expiresMs', '<=', nowMs);
      return Number((await remove.executeTakeFirstOrThrow()).numDeletedRows);
    },
  };
}
