import type { MessageView } from '../../../shared/api/types.ts';
import { dayAndTime } from '../../common/format.ts';
import { Log } from './Log.tsx';

const stateWords: Readonly<Record<MessageView['state'], string>> = {
  waiting: 'waiting to be sent',
  sending: 'being sent',
  sent: 'taken by the gateway',
  delivered: 'delivered',
  failed: 'could not be sent',
  expired: 'too old to send',
  'told-together': 'told together with others in one text',
  'not-needed': 'not sent: it was over, or overtaken',
};

/** Texts about this pile with how each attempt went. */
export function Texts({ messages }: { readonly messages: readonly MessageView[] }) {
  return (
    <section aria-labelledby="texts-title">
      <h2 id="texts-title">Texts sent</h2>
      {messages.length === 0 && <p class="hint">None about this pile.</p>}
      <Log entries={messages} first={3}>
        {(message) => (
          <li key={message.id}>
            <time dateTime={new Date(message.createdMs).toISOString()}>{dayAndTime(message.createdMs)}</time>{' '}
            to {message.person}: <strong>{stateWords[message.state]}</strong>
            {message.maybeTwice && <span>, may have arrived twice</span>}
            <p class="text-body">{message.text}</p>
            {message.attempts.map((attempt) => (
              <p key={attempt.attempt} class="hint">
                try {attempt.attempt}, {dayAndTime(attempt.startedMs)}: {attempt.detail}
              </p>
            ))}
          </li>
        )}
      </Log>
    </section>
  );
}
