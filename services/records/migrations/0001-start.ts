import type { Kysely } from 'kysely';
import type { Migration } from 'kysely/migration';
import { createAlarms } from './0001-start/alarms.ts';
import { createMessages } from './0001-start/messages.ts';
import { createPeople } from './0001-start/people.ts';
import { createPileParts } from './0001-start/pileParts.ts';
import { createProbes } from './0001-start/probes.ts';
import { createServiceState } from './0001-start/serviceState.ts';
import { createSignIn } from './0001-start/signIn.ts';
import { createYards } from './0001-start/yards.ts';

/** The first schema. Written with PostgreSQL's column types; the SQLite adapter translates them. */
export const start: Migration = {
  async up(db: Kysely<unknown>) {
    await createYards(db.schema);
    await createPileParts(db.schema);
    await createPeople(db.schema);
    await createSignIn(db.schema);
    await createAlarms(db.schema);
    await createMessages(db.schema);
    await createProbes(db.schema);
    await createServiceState(db.schema);
  },
};
