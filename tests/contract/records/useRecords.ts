import { afterEach, beforeEach } from 'vitest';
import { openRecords, type RecordsOptions } from '../../../services/records/openRecords.ts';
import type { Records } from '../../../services/records/port.ts';

export type FreshDatabase = () => Promise<RecordsOptions>;

export interface RecordsInTest {
  /** Records over a database that is empty at the start of each test. */
  readonly records: Records;
  /** Another handle on the same database, as another process would have. */
  another(): Promise<Records>;
}

/** Opens an empty database before each test and closes every handle on it after. */
export function useRecords(
  fresh: FreshDatabase,
  extra: Pick<RecordsOptions, 'quarantineKeep'> = {},
): RecordsInTest {
  let opened: Records[] = [];
  let options: RecordsOptions;
  const open = async () => {
    const records = await openRecords({ ...options, ...extra });
    opened.push(records);
    return records;
  };
  beforeEach(async () => {
    options = await fresh();
    await open();
  });
  afterEach(async () => {
    await Promise.all(opened.map((records) => records.close()));
    opened = [];
  });
  return {
    get records() {
      const [first] = opened;
      if (!first) throw new Error('the records are open only within a test');
      return first;
    },
    another: open,
  };
}
