import { type SchemaModule, sql } from 'kysely';

/** Alarms, each step of their lives, and the links people answer with. */
export async function createAlarms(schema: SchemaModule): Promise<void> {
  await createAlarmsTable(schema);
  await createAlarmTransitionsTable(schema);
  await createAnswerLinksTable(schema);
}

async function createAlarmsTable(schema: SchemaModule): Promise<void> {
  await schema
    .createTable('alarms')
    .addColumn('id', 'text', (column) => column.primaryKey())
    .addColumn('yard_id', 'text', (column) => column.notNull().references('yards.id'))
    .addColumn('subject_kind', 'text', (column) => column.notNull())
    .addColumn('subject_id', 'text', (column) => column.notNull())
    .addColumn('condition', 'text', (column) => column.notNull())
    .addColumn('state', 'text', (column) => column.notNull())
    .addColumn('priority', 'text', (column) => column.notNull())
    .addColumn('active', 'integer', (column) => column.notNull())
    .addColumn('beyond_since_ms', 'bigint')
    .addColumn('back_since_ms', 'bigint')
    .addColumn('occurrence', 'bigint', (column) => column.notNull())
    .addColumn('code', 'text', (column) => column.notNull())
    .addColumn('active_since_ms', 'bigint')
    .addColumn('returned_ms', 'bigint')
    .addColumn('acknowledged_ms', 'bigint')
    .addColumn('acknowledged_by', 'text')
    .addColumn('shelved_until_ms', 'bigint')
    .addColumn('hidden_reason', 'text')
    .addColumn('limits_version', 'bigint', (column) => column.notNull())
    .addColumn('evidence', 'text', (column) => column.notNull())
    .addColumn('version', 'bigint', (column) => column.notNull())
    .execute();
  await schema
    .createIndex('alarms_subject')
    .on('alarms')
    .columns(['yard_id', 'subject_kind', 'subject_id', 'condition'])
    .unique()
    .execute();
  await schema.createIndex('alarms_about').on('alarms').columns(['subject_kind', 'subject_id']).execute();
  await schema
    .createIndex('alarms_standing_code')
    .on('alarms')
    .columns(['yard_id', 'code'])
    .unique()
    .where(sql.ref('state'), '<>', sql.lit('normal'))
    .execute();
}

async function createAlarmTransitionsTable(schema: SchemaModule): Promise<void> {
  await schema
    .createTable('alarm_transitions')
    .addColumn('sequence', 'bigserial', (column) => column.primaryKey())
    .addColumn('alarm_id', 'text', (column) => column.notNull().references('alarms.id'))
    .addColumn('occurrence', 'bigint', (column) => column.notNull())
    .addColumn('at_ms', 'bigint', (column) => column.notNull())
    .addColumn('event', 'text', (column) => column.notNull())
    .addColumn('from_state', 'text', (column) => column.notNull())
    .addColumn('to_state', 'text', (column) => column.notNull())
    .addColumn('by', 'text')
    .addColumn('note', 'text')
    .addColumn('limits_version', 'bigint', (column) => column.notNull())
    .addColumn('evidence', 'text', (column) => column.notNull())
    .execute();
  await schema
    .createIndex('transitions_alarm')
    .on('alarm_transitions')
    .columns(['alarm_id', 'sequence'])
    .execute();
}

async function createAnswerLinksTable(schema: SchemaModule): Promise<void> {
  await schema
    .createTable('answer_links')
    .addColumn('token_hash', 'text', (column) => column.primaryKey())
    .addColumn('alarm_id', 'text', (column) => column.notNull().references('alarms.id'))
    .addColumn('occurrence', 'bigint', (column) => column.notNull())
    .addColumn('person_id', 'text', (column) => column.notNull().references('people.id'))
    .addColumn('expires_ms', 'bigint', (column) => column.notNull())
    .execute();
}
