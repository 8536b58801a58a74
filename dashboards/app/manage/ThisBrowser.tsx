import { useEffect, useState } from 'preact/hooks';
import { type Priority, priorities } from '../../../shared/alarms/alarm.ts';
import type { PushList } from '../../../shared/api/types.ts';
import { api } from '../../common/api.ts';
import { dayAndTime } from '../../common/format.ts';
import { Sentence } from '../../common/Sentence.tsx';
import { priorityWords } from '../../common/words.ts';
import { failureText } from '../session.ts';
import { useFetched } from '../useFetched.ts';
import { ownSubscription, pushIsPossible, subscribe, unsubscribe } from './browserPush.ts';
import { pushWords } from './pushWords.ts';

/** Has the browser in somebody's hand told of alarms, also while no page is open, and ends it again. */
export function ThisBrowser() {
  const { data, failure, refetch } = useFetched<PushList>('/api/push', () => false);
  const [endpoint, setEndpoint] = useState<string | null>(null);
  const [toldFrom, setToldFrom] = useState<Priority>('high');
  const [wrong, setWrong] = useState<string | null>(null);
  const look = async () => setEndpoint((await ownSubscription())?.endpoint ?? null);
  useEffect(() => void look(), []);
  if (data === null) return <p>{failure ?? pushWords.fetching}</p>;
  const { publicKey, subscriptions } = data;
  const isHere = subscriptions.some((one) => one.endpoint === endpoint && one.goneMs === null);
  const doing = async (what: () => Promise<void>) => {
    setWrong(null);
    await what().catch((error: unknown) => setWrong(failureText(error)));
    await look();
    await refetch();
  };
  const end = async (id: string, ofThis: boolean) => {
    if (ofThis) await unsubscribe();
    await api.remove(`/api/push/${encodeURIComponent(id)}`);
  };
  const whyNot = publicKey === null ? pushWords.notSetUp : pushIsPossible() ? null : pushWords.notPossible;
  return (
    <>
      <p>{pushWords.lead}</p>
      {wrong !== null && (
        <p class="wrong" role="alert">
          {wrong}
        </p>
      )}
      {whyNot !== null && <p class="note">{whyNot}</p>}
      {whyNot === null && !isHere && (
        <p>
          <label class="field">
            {pushWords.from}{' '}
            <select
              value={toldFrom}
              onChange={({ currentTarget }) => setToldFrom(currentTarget.value as Priority)}
            >
              {priorities.map((priority) => (
                <option key={priority} value={priority}>
                  {priorityWords[priority]}
                </option>
              ))}
            </select>
          </label>
          <button type="button" onClick={() => void doing(() => subscribe(publicKey!, toldFrom))}>
            {pushWords.start}
          </button>
        </p>
      )}
      <ul class="log">
        {subscriptions.map((one) => (
          <li key={one.id}>
            <Sentence
              of={pushWords.browserSince}
              with={{
                browser: <strong>{one.endpoint === endpoint ? pushWords.thisOne : one.service}</strong>,
                time: dayAndTime(one.createdMs),
                from: priorityWords[one.toldFrom],
              }}
            />
            {one.goneMs !== null && <span class="wrong"> {pushWords.gone}</span>}{' '}
            <button
              type="button"
              class="quiet"
              onClick={() => void doing(() => end(one.id, one.endpoint === endpoint))}
            >
              {pushWords.end}
            </button>
          </li>
        ))}
      </ul>
    </>
  );
}
