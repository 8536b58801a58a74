import type { Kysely } from 'kysely';
import type { Migration } from 'kysely/migration';
import { createDuty } from './0002-telling/duty.ts';
import { createInboundTexts } from './0002-telling/inboundTexts.ts';
import { extendMessages } from './0002-telling/messages.ts';

/** Who is told, when and by which way; what people text back; and what may have been sent twice. */
export const telling: Migration = {
  async up(db: Kysely<unknown>) {
    await extendMessages(db.schema);
    await createDuty(db.schema);
    await createInboundTexts(db.schema);
  },
};
