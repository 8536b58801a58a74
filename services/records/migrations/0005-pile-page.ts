import type { Kysely } from 'kysely';
import type { Migration } from 'kysely/migration';

/**
 * What a pile's page wants kept: how deep a hand reading was taken, presses known again when a bad link sends them twice,
 * entries taken back (they stay, marked), photos, and how a pile was planned.
 */
export const pilePage: Migration = {
  async up({ schema }: Kysely<unknown>) {
    await schema.alterTable('journal_entries').addColumn('depth_metres', 'double precision').execute();
    await schema.alterTable('journal_entries').addColumn('press_key', 'text').execute();
    await schema.alterTable('journal_entries').addColumn('taken_back_ms', 'bigint').execute();
    await schema
      .createIndex('journal_press')
      .on('journal_entries')
      .columns(['pile_id', 'press_key'])
      .unique()
      .execute();
    await schema
      .createTable('journal_photos')
      .addColumn('entry_id', 'text', (column) => column.primaryKey().references('journal_entries.id'))
      .addColumn('width_pixels', 'bigint', (column) => column.notNull())
      .addColumn('height_pixels', 'bigint', (column) => column.notNull())
      .addColumn('jpeg', 'bytea', (column) => column.notNull())
      .execute();
    await schema
      .createTable('pile_designs')
      .addColumn('pile_id', 'text', (column) => column.primaryKey().references('piles.id'))
      .addColumn('design', 'text', (column) => column.notNull())
      .addColumn('saved_ms', 'bigint', (column) => column.notNull())
      .execute();
  },
};
