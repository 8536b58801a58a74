import type { SchemaModule } from 'kysely';

/** The outbox and every attempt to send. */
export async function createMessages(schema: SchemaModule): Promise<void> {
  await createMessagesTable(schema);
  await createMessageAttemptsTable(schema);
}

async function createMessagesTable(schema: SchemaModule): Promise<void> {
  await schema
    .createTable('messages')
    .addColumn('sequence', 'bigserial', (column) => column.primaryKey())
    .addColumn('id', 'text', (column) => column.notNull().unique())
    .addColumn('yard_id', 'text', (column) => column.notNull().references('yards.id'))
    .addColumn('pile_id', 'text', (column) => column.references('piles.id'))
    .addColumn('alarm_id', 'text', (column) => column.references('alarms.id'))
    .addColumn('occurrence', 'bigint')
    .addColumn('idempotency_key', 'text', (column) => column.notNull().unique())
    .addColumn('person_id', 'text', (column) => column.notNull().references('people.id'))
    .addColumn('channel', 'text', (column) => column.notNull())
    .addColumn('address', 'text', (column) => column.notNull())
    .addColumn('text', 'text', (column) => column.notNull())
    .addColumn('priority', 'text', (column) => column.notNull())
    .addColumn('created_ms', 'bigint', (column) => column.notNull())
    .addColumn('not_before_ms', 'bigint', (column) => column.notNull())
    .addColumn('expires_ms', 'bigint', (column) => column.notNull())
    .addColumn('state', 'text', (column) => column.notNull())
    .addColumn('attempts', 'bigint', (column) => column.notNull())
    .addColumn('next_attempt_ms', 'bigint', (column) => column.notNull())
    .addColumn('gateway_reference', 'text')
    .addColumn('finished_ms', 'bigint')
    .addColumn('claimed_by', 'text')
    .addColumn('lease_until_ms', 'bigint')
    .execute();
  await schema.createIndex('messages_due').on('messages').columns(['state', 'next_attempt_ms']).execute();
  await schema.createIndex('messages_recipient').on('messages').columns(['address', 'state']).execute();
  await schema
    .createIndex('messages_alarm')
    .on('messages')
    .columns(['alarm_id', 'state', 'sequence'])
    .execute();
  await schema.createIndex('messages_yard').on('messages').columns(['yard_id', 'sequence']).execute();
  await schema.createIndex('messages_pile').on('messages').columns(['pile_id', 'sequence']).execute();
  await schema.createIndex('messages_reference').on('messages').column('gateway_reference').execute();
}

async function createMessageAttemptsTable(schema: SchemaModule): Promise<void> {
  await schema
    .createTable('message_attempts')
    .addColumn('sequence', 'bigserial', (column) => column.primaryKey())
    .addColumn('message_id', 'text', (column) => column.notNull().references('messages.id'))
    .addColumn('attempt', 'bigint', (column) => column.notNull())
    .addColumn('started_ms', 'bigint', (column) => column.notNull())
    .addColumn('finished_ms', 'bigint', (column) => column.notNull())
    .addColumn('outcome', 'text', (column) => column.notNull())
    .addColumn('detail', 'text', (column) => column.notNull())
    .execute();
  await schema.createIndex('attempts_message').on('message_attempts').column('message_id').execute();
}
