import type { PilePage } from '../../../shared/api/types.ts';
import { noteStart } from '../../../shared/rules/milestoneNote.ts';
import { dayAndTime } from '../../common/format.ts';
import { text } from './words.ts';

/** What this pile has come to, newest first: the system's own notes in its journal. */
export function Milestones({ page }: { readonly page: PilePage }) {
  const reached = page.journal.filter(
    ({ kind, by, note }) => kind === 'note' && by === null && note.startsWith(noteStart),
  );
  return (
    <section aria-labelledby="milestones-title">
      <h2 id="milestones-title">{text.milestones}</h2>
      {reached.length === 0 && <p class="hint">{text.noMilestone}</p>}
      <ul class="log">
        {reached.map(({ id, timeMs, note }) => {
          const [title, ...next] = note.slice(noteStart.length).split('. ');
          return (
            <li key={id}>
              <time dateTime={new Date(timeMs).toISOString()}>{dayAndTime(timeMs)}</time>{' '}
              <strong>{title}</strong>. {next.join('. ')}
            </li>
          );
        })}
      </ul>
    </section>
  );
}
