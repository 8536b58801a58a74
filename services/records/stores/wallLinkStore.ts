import { newId } from '../newId.ts';
import type { WallLinkStore } from '../port.ts';
import { found, refusing } from '../refusals.ts';
import type { Database } from '../schema.ts';

export function wallLinkStore(db: Database): WallLinkStore {
  const links = db.selectFrom('wallLinks').selectAll();
  return {
    list: (yardId) => links.where('yardId', '=', yardId).orderBy('createdMs').orderBy('id').execute(),
    create({ yardId, tokenHash, label, createdMs, createdBy }) {
      const row = { id: newId(), yardId, tokenHash, label, createdMs, createdBy, revokedMs: null };
      const insert = db.insertInto('wallLinks').values(row).returningAll().executeTakeFirstOrThrow();
      return refusing(insert, { reference: 'yardId' });
    },
    async byToken(tokenHash) {
      const standing = links.where('tokenHash', '=', tokenHash).where('revokedMs', 'is', null);
      return (await standing.executeTakeFirst()) ?? null;
    },
    /** Revoking again changes nothing: the first time stays on record. */
    async revoke(id, atMs) {
      const known = db.selectFrom('wallLinks').select('id').where('id', '=', id);
      found(await known.executeTakeFirst(), 'wallLinkId', id);
      const revoke = db.updateTable('wallLinks').set({ revokedMs: atMs }).where('id', '=', id);
      await revoke.where('revokedMs', 'is', null).execute();
    },
  };
}
