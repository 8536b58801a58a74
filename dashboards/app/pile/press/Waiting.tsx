import { useEffect, useState } from 'preact/hooks';
import { link } from '../../../common/live.ts';
import { session } from '../../session.ts';
import { text } from '../words.ts';
import { inFlight, isForgetful, waiting, withdraw } from './outbox.ts';
import type { Press } from './press.ts';

/** Presses that have not arrived yet: what each waits for, and a way to undo it. */
export function Waiting() {
  const [, tick] = useState(0);
  const open = waiting.value;
  useEffect(() => {
    if (open.length === 0) return undefined;
    const timer = setInterval(() => tick((count) => count + 1), 1000);
    return () => clearInterval(timer);
  }, [open.length === 0]);
  return (
    <div class="waiting" role="status">
      {isForgetful.value && open.length > 0 && <p class="wrong">{text.keepsNothing}</p>}
      {open.map((each) => (
        <div key={each.key} class={each.refusal === null ? 'press' : 'press refused'}>
          <p>
            <strong>{each.words}</strong> <span>{stateOf(each)}</span>
          </p>
          {inFlight.value !== each.key && (
            <button type="button" class="quiet" onClick={() => void withdraw(each.key)}>
              {each.refusal === null ? text.undo : text.forget}
            </button>
          )}
        </div>
      ))}
    </div>
  );
}

function stateOf({ key, refusal, personId, holdUntilMs, tries }: Press): string {
  if (refusal !== null) return text.notTaken(refusal);
  if (personId !== session.value?.person?.id) return text.otherPerson;
  if (inFlight.value === key) return text.beingSent;
  if (link.value !== 'live' || tries > 0) return text.noLink;
  const seconds = Math.ceil((holdUntilMs - Date.now()) / 1000);
  return seconds > 0 ? text.goesIn(seconds) : text.beingSent;
}
