import type { SchemaModule } from 'kysely';

/** Texts that known people sent us, each once however often it is passed on. */
export async function createInboundTexts(schema: SchemaModule): Promise<void> {
  await schema
    .createTable('inbound_texts')
    .addColumn('sequence', 'bigserial', (column) => column.primaryKey())
    .addColumn('key', 'text', (column) => column.notNull().unique())
    .addColumn('person_id', 'text', (column) => column.notNull().references('people.id'))
    .addColumn('address', 'text', (column) => column.notNull())
    .addColumn('text', 'text', (column) => column.notNull())
    .addColumn('received_ms', 'bigint', (column) => column.notNull())
    .addColumn('done_ms', 'bigint')
    .addColumn('outcome', 'text')
    .execute();
  await schema
    .createIndex('inbound_texts_person')
    .on('inbound_texts')
    .columns(['person_id', 'received_ms'])
    .execute();
}
