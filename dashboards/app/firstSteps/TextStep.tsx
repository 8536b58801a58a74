import { useState } from 'preact/hooks';
import type { ChannelList, MessageView } from '../../../shared/api/types.ts';
import { api } from '../../common/api.ts';
import { Sentence } from '../../common/Sentence.tsx';
import { Form } from '../Form.tsx';
import { channelExamples } from '../manage/words.ts';
import { linkTo } from '../route.ts';
import { session } from '../session.ts';
import { useFetched } from '../useFetched.ts';
import type { StepProps } from './FirstSteps.tsx';
import { text } from './words.ts';

/** A text to oneself, by the very way an alarm would take. */
export function TextStep({ facts, onDone }: StepProps) {
  const channels = useFetched<ChannelList>('/api/channels', ({ kind }) => kind === 'messages');
  const [sentAtMs, setSentAt] = useState<number | null>(null);
  const own = facts.people.find(({ id }) => id === session.value?.person?.id);
  const hasGateway = channels.data?.channels.some(({ channel }) => channel === channels.data?.textChannel);
  const send = async () => {
    const { nowMs } = await api.get<{ nowMs: number }>('/api/session');
    await api.post('/api/messages/test', { personId: own?.id });
    setSentAt(nowMs);
    await onDone();
  };
  const test = sentAtMs === null ? undefined : facts.messages.find(({ createdMs }) => createdMs >= sentAtMs);
  return (
    <>
      <p>{text.textLead}</p>
      {hasGateway === false && <NoGateway />}
      {hasGateway && !own?.phone && (
        <p class="note">
          {text.textNoWay} <a href={linkTo('start', 'people')}>{text.toStep}</a>
        </p>
      )}
      {hasGateway && own?.phone && (
        <>
          <p>
            <Sentence of={text.textTo} with={{ phone: <strong>{own.phone}</strong> }} />
          </p>
          <Form button={text.textSend} onSend={send}>
            {() => null}
          </Form>
          <div role="status">{sentAtMs !== null && <Outcome message={test} />}</div>
        </>
      )}
      <p>
        <a href={linkTo('manage', 'gateways')}>{text.textGateways}</a>
      </p>
    </>
  );
}

function NoGateway() {
  return (
    <div class="note">
      <p>
        <strong>{text.textNoGateway}</strong>
      </p>
      <p>{text.textHow}</p>
      <pre>{channelExamples['sms-http']}</pre>
    </div>
  );
}

/** What has become of the test so far. */
function Outcome({ message }: { readonly message: MessageView | undefined }) {
  const last = message?.attempts.at(-1);
  if (message?.state === 'sent' || message?.state === 'delivered')
    return (
      <p class="note">
        <strong>{text.textSent}</strong> <span class="hint">{last?.detail}</span>
      </p>
    );
  if (last !== undefined && last.outcome !== 'sent')
    return (
      <p class="wrong-note">
        <strong>{text.textFailed}</strong> {last.detail}
      </p>
    );
  return <p>{text.textWaiting}</p>;
}
