import { useEffect, useState } from 'preact/hooks';
import { priorities } from '../../../shared/alarms/alarm.ts';
import type { ChannelTest, PushList } from '../../../shared/api/types.ts';
import { api } from '../../common/api.ts';
import { dayAndTime } from '../../common/format.ts';
import { priorityWords } from '../../common/words.ts';
import { Field, Form } from '../Form.tsx';
import { useFetched } from '../useFetched.ts';
import { ownSubscription, type PushAbility, pushAbility, subscribe } from './subscription.ts';
import { text } from './words.ts';

const inTheWay: Readonly<Record<Exclude<PushAbility, 'can'>, string>> = {
  'no-https': text.phoneNeedsHttps,
  'home-screen-first': text.phoneHomeScreen,
  cannot: text.phoneCannot,
};

interface TellThisPhoneProps {
  /** Shows nothing where this browser or yard cannot do it. */
  readonly quiet?: boolean;
}

/** Web push for the browser somebody holds: on by a press, off by a press. */
export function TellThisPhone({ quiet = false }: TellThisPhoneProps) {
  const push = useFetched<PushList>('/api/push', ({ kind }) => kind === 'people');
  const [endpoint, setEndpoint] = useState<string | null>(null);
  const ability = pushAbility();
  useEffect(() => {
    if (ability === 'can') void ownSubscription().then((found) => setEndpoint(found?.endpoint ?? null));
  }, [ability]);
  if (push.data === null) return push.failure && !quiet ? <p class="wrong">{push.failure}</p> : null;
  const { publicKey, subscriptions } = push.data;
  if (quiet && (ability !== 'can' || publicKey === null)) return null;
  const own = subscriptions.find((one) => one.endpoint === endpoint && one.goneMs === null);
  const others = subscriptions.filter(({ id }) => id !== own?.id);
  const begin = async ({ toldFrom }: Readonly<Record<string, string>>) => {
    const subscription = await subscribe(publicKey!).catch((error: Error) => {
      throw new Error(text.phoneFailed(error.message));
    });
    if (subscription === null) throw new Error(text.phoneDenied);
    const { endpoint: address, keys } = subscription;
    await api.post('/api/push', { subscription: { endpoint: address, keys }, toldFrom });
    setEndpoint(address ?? null);
    await push.refetch();
  };
  const end = async (id: string) => {
    if (id === own?.id) await (await ownSubscription())?.unsubscribe();
    await api.remove(`/api/push/${encodeURIComponent(id)}`);
    await push.refetch();
  };
  return (
    <section aria-labelledby="tell-phone">
      <h2 id="tell-phone">{text.phoneTitle}</h2>
      <p>{text.phoneLead}</p>
      {publicKey === null ? (
        <p class="note">{text.phoneNotSetUp}</p>
      ) : ability !== 'can' ? (
        <p class="note">{inTheWay[ability]}</p>
      ) : own ? (
        <IsTold id={own.id} from={priorityWords[own.toldFrom]} onEnd={() => end(own.id)} />
      ) : (
        <Form button={text.phoneButton} onSend={begin}>
          {(wrong) => (
            <Field
              label={text.phoneFrom}
              name="toldFrom"
              value="high"
              choices={priorities.map((one) => [one, priorityWords[one]] as const)}
              error={wrong('toldFrom')}
            />
          )}
        </Form>
      )}
      {others.length > 0 && <Others subscriptions={others} onEnd={end} />}
    </section>
  );
}

interface IsToldProps {
  readonly id: string;
  readonly from: string;
  readonly onEnd: () => Promise<void>;
}

function IsTold({ id, from, onEnd }: IsToldProps) {
  const [outcome, setOutcome] = useState<ChannelTest | null>(null);
  const test = async () =>
    setOutcome(await api.post<ChannelTest>(`/api/push/${encodeURIComponent(id)}/test`));
  return (
    <>
      <p role="status">
        <strong>{text.phoneOn}</strong> {text.phoneToldFrom(from)} {outcome?.detail}
      </p>
      <div class="buttons">
        <Form button={text.phoneTest} onSend={test}>
          {() => null}
        </Form>
        <Form button={text.phoneEnd} onSend={onEnd}>
          {() => null}
        </Form>
      </div>
    </>
  );
}

interface OthersProps {
  readonly subscriptions: PushList['subscriptions'];
  readonly onEnd: (id: string) => Promise<void>;
}

function Others({ subscriptions, onEnd }: OthersProps) {
  return (
    <>
      <h3>{text.phoneOthers}</h3>
      <ul class="log">
        {subscriptions.map(({ id, service, createdMs, goneMs }) => (
          <li key={id}>
            {service}, {dayAndTime(createdMs)}
            {goneMs !== null && <span class="hint"> {text.phoneGone}</span>}
            <Form button={text.remove} onSend={() => onEnd(id)}>
              {() => null}
            </Form>
          </li>
        ))}
      </ul>
    </>
  );
}
