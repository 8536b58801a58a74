import type { QuarantineView } from '../../../shared/api/types.ts';
import { dayAndTime } from '../../common/format.ts';
import { useFetched } from '../useFetched.ts';

/** Messages that could not be taken in, with why: the first place to look when a probe seems silent. */
export function SetAside() {
  const { data, failure } = useFetched<QuarantineView>(
    '/api/quarantine',
    ({ kind }) => kind === 'quarantine',
  );
  if (data === null) return <p>{failure ?? 'Fetching...'}</p>;
  return (
    <>
      <p>
        Messages that could not be read or were not allowed: {data.total} so far, the newest{' '}
        {data.items.length} kept.
      </p>
      <ul class="log">
        {data.items.map((item) => (
          <li key={item.id}>
            <time dateTime={new Date(item.receivedMs).toISOString()}>{dayAndTime(item.receivedMs)}</time>{' '}
            <strong>{item.reason}</strong>
            <p class="hint">
              {item.topic}, {item.payloadBytes} bytes
            </p>
            <pre>{item.payloadText ?? item.payloadHex}</pre>
          </li>
        ))}
      </ul>
    </>
  );
}
