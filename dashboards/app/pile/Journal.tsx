import { useState } from 'preact/hooks';
import type { JournalEntryView, PilePage } from '../../../shared/api/types.ts';
import { api } from '../../common/api.ts';
import { dayAndTime } from '../../common/format.ts';
import { slowNowMs } from '../../common/live.ts';
import { journalWords } from '../../common/words.ts';
import { failureText } from '../session.ts';
import { shownValue } from './journalEntry.ts';
import { Log } from './Log.tsx';
import { text } from './words.ts';

interface JournalProps {
  readonly page: PilePage;
  readonly onDone: () => Promise<void>;
}

/** What people did and saw; the buttons to say so are in the bar below. */
export function Journal({ page, onDone }: JournalProps) {
  return (
    <section aria-labelledby="journal-title">
      <h2 id="journal-title">{text.journal}</h2>
      {page.journal.length === 0 && <p class="hint">{text.nothingWritten}</p>}
      <Log entries={page.journal} first={8}>
        {(entry) => <Entry key={entry.id} entry={entry} onDone={onDone} />}
      </Log>
    </section>
  );
}

interface EntryProps {
  readonly entry: JournalEntryView;
  readonly onDone: () => Promise<void>;
}

function Entry({ entry, onDone }: EntryProps) {
  const { id, kind, timeMs, note, by, photo, takeBackUntilMs } = entry;
  const [failure, setFailure] = useState<string | null>(null);
  const takeBack = () => {
    api
      .post(`/api/journal/${encodeURIComponent(id)}/take-back`)
      .then(onDone)
      .catch((error) => setFailure(failureText(error)));
  };
  return (
    <li>
      <time dateTime={new Date(timeMs).toISOString()}>{dayAndTime(timeMs)}</time>{' '}
      <strong>{journalWords[kind]}</strong> {shownValue(entry)} {note} {by && <span class="hint">{by}</span>}
      {photo && (
        <img
          class="photo"
          loading="lazy"
          src={`/api/journal/${encodeURIComponent(id)}/photo`}
          width={photo.widthPixels}
          height={photo.heightPixels}
          alt={note === '' ? text.photoOf(dayAndTime(timeMs)) : note}
        />
      )}
      {takeBackUntilMs !== null && takeBackUntilMs > slowNowMs.value && (
        <button type="button" class="quiet small" onClick={takeBack}>
          {text.takeBack}{' '}
          <span class="visually-hidden">
            {journalWords[kind]}, {dayAndTime(timeMs)}
          </span>
        </button>
      )}
      {failure && (
        <p class="wrong" role="alert">
          {failure}
        </p>
      )}
    </li>
  );
}
