import type { MessageView } from '../../../shared/api/types.ts';
import { dayAndTime } from '../../common/format.ts';
import { Sentence } from '../../common/Sentence.tsx';
import { Log } from './Log.tsx';
import { text, textStateWords } from './words.ts';

/** Texts about this pile with how each attempt went. */
export function Texts({ messages }: { readonly messages: readonly MessageView[] }) {
  return (
    <section aria-labelledby="texts-title">
      <h2 id="texts-title">{text.texts}</h2>
      {messages.length === 0 && <p class="hint">{text.noTexts}</p>}
      <Log entries={messages} first={3}>
        {(message) => (
          <li key={message.id}>
            <time dateTime={new Date(message.createdMs).toISOString()}>{dayAndTime(message.createdMs)}</time>{' '}
            <Sentence
              of={text.textTo}
              with={{
                person: message.person,
                state: <strong>{textStateWords[message.state]}</strong>,
              }}
            />
            {message.maybeTwice && <span>{text.maybeTwice}</span>}
            <p class="text-body">{message.text}</p>
            {message.attempts.map((attempt) => (
              <p key={attempt.attempt} class="hint">
                {text.attempt(attempt.attempt, dayAndTime(attempt.startedMs), attempt.detail)}
              </p>
            ))}
          </li>
        )}
      </Log>
    </section>
  );
}
