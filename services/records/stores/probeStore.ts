import type { ProbeStore } from '../port.ts';
import { found, refusing } from '../refusals.ts';
import type { Database } from '../schema.ts';
import { calibrationSide } from './calibrations.ts';

const columns = ['id', 'yardId', 'label', 'createdMs', 'revokedMs', 'expectedIntervalSeconds'] as const;

export function probeStore(db: Database): ProbeStore {
  const probes = db.selectFrom('probes').select(columns);
  return {
    list: (yardId) => probes.where('yardId', '=', yardId).orderBy('label').orderBy('id').execute(),
    get: async (id) => (await probes.where('id', '=', id).executeTakeFirst()) ?? null,
    create({ id, yardId, label, createdMs, expectedIntervalSeconds }, secretHash) {
      const row = { id, yardId, label, createdMs, expectedIntervalSeconds, revokedMs: null, secretHash };
      const insert = db.insertInto('probes').values(row).returning(columns).executeTakeFirstOrThrow();
      return refusing(insert, { unique: ['id', `there is a probe ${id} already`], reference: 'yardId' });
    },
    /** A device whose credential was revoked comes back with a new secret, under its old id. */
    async setSecret(id, secretHash) {
      const change = { secretHash, revokedMs: null };
      const update = db.updateTable('probes').set(change).where('id', '=', id).returning('id');
      found(await update.executeTakeFirst(), 'probeId', id);
    },
    async secretHash(id) {
      const probe = db.selectFrom('probes').select('secretHash').where('id', '=', id);
      return (await probe.where('revokedMs', 'is', null).executeTakeFirst())?.secretHash ?? null;
    },
    async revoke(id, atMs) {
      found(await probes.where('id', '=', id).executeTakeFirst(), 'probeId', id);
      const revoke = db.updateTable('probes').set({ revokedMs: atMs }).where('id', '=', id);
      await revoke.where('revokedMs', 'is', null).execute();
    },
    ...calibrationSide(db),
  };
}
