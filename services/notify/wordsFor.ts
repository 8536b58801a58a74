import { type Wordings, wordingsOf } from '../../shared/messages/wordings.ts';
import type { MessageWords } from '../../shared/messages/words/messageWords.ts';
import type { Person } from '../../shared/yard/people.ts';
import type { Records } from '../records/port.ts';

/** The words of a yard, in its own wording where it has one. */
export async function readWordings(records: Records, yardId: string): Promise<Wordings> {
  return wordingsOf((await records.wordings.current(yardId)).overrides);
}

/** The words for one person, in their language and as their yard says them. */
export async function wordsFor(
  records: Records,
  { yardId, language }: Pick<Person, 'yardId' | 'language'>,
): Promise<MessageWords> {
  return (await readWordings(records, yardId))(language);
}
