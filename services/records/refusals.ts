import { isReferenceBroken, isUniqueBroken } from './dialects/constraint.ts';
import { RecordsError } from './port.ts';

/** The row itself, or a RecordsError that says what was not found. */
export function found<Row>(row: Row | undefined, field: string, id: string): Row {
  if (row === undefined) throw new RecordsError(field, `${field} ${id} does not exist`);
  return row;
}

export interface Refusals {
  /** Field named, and the words, when a value must be unique and is not. */
  readonly unique?: readonly [field: string, message: string];
  /** Field named when the row refers to one that does not exist. */
  readonly reference?: string;
}

/** Turns the database's complaint about a broken rule into a RecordsError; any other fault passes through. */
export async function refusing<Result>(work: Promise<Result>, refusals: Refusals): Promise<Result> {
  try {
    return await work;
  } catch (error) {
    if (refusals.unique && isUniqueBroken(error)) throw new RecordsError(...refusals.unique);
    if (refusals.reference && isReferenceBroken(error))
      throw new RecordsError(refusals.reference, `${refusals.reference} does not exist`);
    throw error;
  }
}

/** Whether a change names any field at all: SQL has no update of nothing. */
export const isEmptyChange = (change: object): boolean => Object.keys(change).length === 0;
