import type { SchemaModule } from 'kysely';

/** What a message is, whether it may have gone out unseen, and why one did not go as it was written. */
export async function extendMessages(schema: SchemaModule): Promise<void> {
  // One column at a time: SQLite alters no other way.
  const messages = () => schema.alterTable('messages');
  await messages()
    .addColumn('kind', 'text', (column) => column.notNull().defaultTo('alarm'))
    .execute();
  await messages().addColumn('attempt_began_ms', 'bigint').execute();
  await messages()
    .addColumn('maybe_sent', 'bigint', (column) => column.notNull().defaultTo(0))
    .execute();
  await messages().addColumn('held_for', 'text').execute();
  await messages().addColumn('told_in', 'text').execute();
  await schema
    .alterTable('message_attempts')
    .addColumn('maybe_sent', 'integer', (column) => column.notNull().defaultTo(0))
    .execute();
  await schema
    .createIndex('messages_person')
    .on('messages')
    .columns(['person_id', 'state', 'sequence'])
    .execute();
}
