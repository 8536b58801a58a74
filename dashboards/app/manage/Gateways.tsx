import { useState } from 'preact/hooks';
import type {
  ChannelList,
  ChannelTest,
  ChannelView,
  ContactWayView,
  PersonView,
} from '../../../shared/api/types.ts';
import { api } from '../../common/api.ts';
import { dayAndTime } from '../../common/format.ts';
import { Sentence } from '../../common/Sentence.tsx';
import { words } from '../../common/words.ts';
import { Field, Form } from '../Form.tsx';
import { linkTo } from '../route.ts';
import { mayAct, session } from '../session.ts';
import { useFetched } from '../useFetched.ts';
import { channelExamples, channelTitles, helpCommand, text } from './words.ts';

type Kind = ChannelView['channel'];
const kinds = Object.keys(channelTitles) as Kind[];

/** Every way messages leave by: how it stands, what happened last, and a test that waits for the answer. */
export function Gateways() {
  const list = useFetched<ChannelList>('/api/channels', ({ kind }) => kind === 'messages');
  if (list.data === null) return <p>{list.failure ?? words.fetching}</p>;
  const { channels, textChannel, isKnown } = list.data;
  const missing = kinds.filter((kind) => !channels.some(({ channel }) => channel === kind));
  return (
    <>
      <p>{text.gatewaysLead}</p>
      {!isKnown && <p class="wrong-note">{text.unknownGateways}</p>}
      {isKnown && channels.length === 0 && <p class="wrong-note">{text.noGateways}</p>}
      {channels.map((channel) => (
        <Gateway
          key={channel.channel}
          gateway={channel}
          isForTexts={channel.channel === textChannel}
          onDone={list.refetch}
        />
      ))}
      {isKnown && missing.length > 0 && <h2>{text.notSetUp}</h2>}
      {isKnown &&
        missing.map((kind) => (
          <details key={kind} class="how-to">
            <summary>{text.howTo(channelTitles[kind])}</summary>
            <p class="hint">
              <Sentence of={text.configHint} with={{ command: <code>{helpCommand}</code> }} />
            </p>
            <pre>{channelExamples[kind]}</pre>
          </details>
        ))}
    </>
  );
}

interface GatewayProps {
  readonly gateway: ChannelView;
  readonly isForTexts: boolean;
  readonly onDone: () => Promise<void>;
}

function Gateway({ gateway, isForTexts, onDone }: GatewayProps) {
  const { channel, standing, lastSent, lastFailed } = gateway;
  const look = async () => {
    await api.post(`/api/channels/${channel}/check`);
    await onDone();
  };
  const state = standing === null ? 'unknown' : standing.ready ? 'ready' : 'broken';
  return (
    <article class={`card gateway gateway-${state}`}>
      <h2>
        {channelTitles[channel]} {isForTexts && <span class="hint">{text.forTexts}</span>}
      </h2>
      <p>
        <strong>{standing === null ? text.notLooked : standing.ready ? text.ready : text.notReady}</strong>
        {standing && text.standing(standing.detail)}
        {standing?.tellOwner && <strong class="wrong">{text.needsSomebody} </strong>}
        {standing && <span class="hint">{text.lookedAt(dayAndTime(standing.atMs))}</span>}
      </p>
      <dl class="pairs">
        <dt>{text.lastSent}</dt>
        <dd>{lastSent ? `${dayAndTime(lastSent.atMs)}, ${lastSent.detail}` : text.never}</dd>
        <dt>{text.lastFailed}</dt>
        <dd>{lastFailed ? `${dayAndTime(lastFailed.atMs)}, ${lastFailed.detail}` : text.never}</dd>
      </dl>
      {mayAct('owner') && (
        <>
          <Form button={text.lookNow} onSend={look}>
            {() => null}
          </Form>
          <Test kind={channel} onDone={onDone} />
        </>
      )}
    </article>
  );
}

const outcomeWords: Readonly<Record<ChannelTest['outcome'], string>> = {
  sent: text.outcomeSent,
  retry: text.outcomeRetry,
  'gave-up': text.outcomeGaveUp,
};

/** Sends a test to one of the yard's people, or to an address typed here, and says what the other side answered. */
function Test({ kind, onDone }: { readonly kind: Kind; readonly onDone: () => Promise<void> }) {
  const people = useFetched<PersonView[]>('/api/people', ({ kind: changed }) => changed === 'people');
  const ways = useFetched<ContactWayView[]>('/api/contact-ways', ({ kind: changed }) => changed === 'people');
  const [outcome, setOutcome] = useState<ChannelTest | null>(null);
  const [target, setTarget] = useState<string | null>(null);
  const own = session.value?.person?.id;
  const able = (people.data ?? [])
    .filter((person) => canBeReached(person, kind, ways.data ?? []))
    .sort((one, other) => Number(other.id === own) - Number(one.id === own));
  const named = able.map(({ id, name }) => [id, name] as const);
  // The address of a browser is nothing a person could type.
  const choices = kind === 'web-push' ? named : [...named, ['', text.anotherAddress] as const];
  const chosen = target ?? choices[0]?.[0] ?? '';
  const send = async ({ to, address }: Readonly<Record<string, string>>) => {
    setOutcome(null);
    const body = to ? { personId: to } : { address };
    setOutcome(await api.post<ChannelTest>(`/api/channels/${kind}/test`, body));
    await onDone();
  };
  if (people.data === null || ways.data === null) return null;
  if (choices.length === 0)
    return (
      <p class="hint">
        {text.noBrowser} <a href={linkTo('me')}>{text.noBrowserLink}</a>
      </p>
    );
  return (
    <>
      <Form button={text.sendTest} onSend={send}>
        {(wrong) => (
          <>
            <Field
              label={text.testTo}
              name="to"
              choices={choices}
              value={chosen}
              error={wrong('personId')}
              onChange={(event) => setTarget((event.currentTarget as HTMLSelectElement).value)}
            />
            {chosen === '' && <Field label={text.address} name="address" error={wrong('address')} required />}
          </>
        )}
      </Form>
      <div role="status">
        {outcome && (
          <p class={outcome.outcome === 'sent' ? 'note' : 'wrong-note'}>
            <strong>{outcomeWords[outcome.outcome]}</strong> {outcome.detail}
            {outcome.tellOwner && ` ${text.needsSomebody}`}
          </p>
        )}
      </div>
    </>
  );
}

function canBeReached(person: PersonView, kind: Kind, ways: readonly ContactWayView[]): boolean {
  if (kind === 'sms-http' || kind === 'sms-modem') return person.phone !== null;
  return ways.some((way) => way.personId === person.id && way.channel === kind && way.goneMs === null);
}
