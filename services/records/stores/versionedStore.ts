import { isUniqueBroken } from '../dialects/constraint.ts';
import { VersionConflict } from '../port.ts';
import { refusing } from '../refusals.ts';

/** Something of a yard that is kept with all its versions. */
export interface Versioned {
  readonly yardId: string;
  readonly version: number;
}

export interface VersionedTable<Value extends Versioned> {
  /** "the duty plan is" */
  readonly whatIs: string;
  readonly current: (yardId: string) => Promise<Value>;
  readonly insert: (value: Value) => Promise<unknown>;
}

/** Saves the next version; a version somebody else saved meanwhile is a VersionConflict, never overwritten. */
export async function saveNext<Value extends Versioned>(
  { whatIs, current, insert }: VersionedTable<Value>,
  change: Omit<Value, 'version'> & { readonly yardId: string },
  expectedVersion: number,
): Promise<Value> {
  const conflict = (version: number) =>
    new VersionConflict(`${whatIs} at version ${version}, not ${expectedVersion}`);
  const stored = await current(change.yardId);
  if (stored.version !== expectedVersion) throw conflict(stored.version);
  const version = expectedVersion + 1;
  const next = { ...change, version } as unknown as Value;
  try {
    await refusing(insert(next), { reference: 'yardId' });
  } catch (error) {
    if (isUniqueBroken(error)) throw conflict(version);
    throw error;
  }
  return next;
}
