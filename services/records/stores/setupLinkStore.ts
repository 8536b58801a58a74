import type { SetupLinkStore } from '../port.ts';
import { refusing } from '../refusals.ts';
import type { Database } from '../schema.ts';

export function setupLinkStore(db: Database): SetupLinkStore {
  return {
    async create({ tokenHash, purpose, personId, expiresMs }) {
      const row = { tokenHash, purpose, personId, expiresMs };
      await refusing(db.insertInto('setupLinks').values(row).execute(), { reference: 'personId' });
    },
    /** One statement both finds and removes: of two who follow a link at once, one gets it. */
    async use(tokenHash, nowMs) {
      const taken = await db
        .deleteFrom('setupLinks')
        .where('tokenHash', '=', tokenHash)
        .where('expiresMs', '>', nowMs)
        .returningAll()
        .executeTakeFirst();
      return taken ?? null;
    },
    async peek(tokenHash, nowMs) {
      const link = db.selectFrom('setupLinks').selectAll().where('tokenHash', '=', tokenHash);
      return (await link.where('expiresMs', '>', nowMs).executeTakeFirst()) ?? null;
    },
    async removeAll(purpose) {
      await db.deleteFrom('setupLinks').where('purpose', '=', purpose).execute();
    },
  };
}
