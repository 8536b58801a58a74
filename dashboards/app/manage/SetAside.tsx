import type { QuarantineView } from '../../../shared/api/types.ts';
import { dayAndTime } from '../../common/format.ts';
import { words } from '../../common/words.ts';
import { setAsideAdvice } from '../setAsideAdvice.ts';
import { useFetched } from '../useFetched.ts';
import { text } from './words.ts';

/** Messages that could not be taken in, with why and what to do about each. */
export function SetAside() {
  const { data, failure } = useFetched<QuarantineView>(
    '/api/quarantine',
    ({ kind }) => kind === 'quarantine',
  );
  if (data === null) return <p>{failure ?? words.fetching}</p>;
  if (data.total === 0) return <p>{text.setAsideNone}</p>;
  return (
    <>
      <p>
        {text.setAsideLead} {text.setAsideCount(data.total, data.items.length)}
      </p>
      <ul class="log">
        {data.items.map((item) => (
          <li key={item.id}>
            <time dateTime={new Date(item.receivedMs).toISOString()}>{dayAndTime(item.receivedMs)}</time>{' '}
            <strong>{item.reason}</strong>
            <p>
              <strong>{text.whatToDo}</strong> {setAsideAdvice(item.reason)}
            </p>
            <p class="hint">{text.sentOn(item.topic, item.payloadBytes)}</p>
            <pre>{item.payloadText ?? item.payloadHex}</pre>
          </li>
        ))}
      </ul>
    </>
  );
}
