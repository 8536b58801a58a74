import { useState } from 'preact/hooks';
import { api } from '../../common/api.ts';
import { Sentence } from '../../common/Sentence.tsx';
import { Field, Form } from '../Form.tsx';
import { passwordHint } from '../SignIn.tsx';
import { session } from '../session.ts';
import { TellThisPhone } from './TellThisPhone.tsx';
import { text } from './words.ts';

/** What everybody may set for themselves. */
export function Me() {
  const person = session.value?.person;
  return (
    <main class="page">
      <h1>{text.title}</h1>
      <p>
        <Sentence
          of={text.signedInAs}
          with={{ name: <strong>{person?.name}</strong>, login: person?.login }}
        />
      </p>
      <TellThisPhone />
      <TestText />
      <ChangePassword />
    </main>
  );
}

/** Whether texts get through is for whoever they are for to find out. */
function TestText() {
  const [isSent, setSent] = useState(false);
  const send = async () => {
    setSent(false);
    await api.post('/api/messages/test', { personId: session.value?.person?.id });
    setSent(true);
  };
  return (
    <section aria-labelledby="test-text">
      <h2 id="test-text">{text.textTitle}</h2>
      <p>{text.textLead}</p>
      <Form button={text.textButton} onSend={send}>
        {() => null}
      </Form>
      <p role="status">{isSent && text.textSent}</p>
    </section>
  );
}

function ChangePassword() {
  const [isDone, setDone] = useState(false);
  const change = async ({ currentPassword, newPassword }: Readonly<Record<string, string>>) => {
    setDone(false);
    await api.post('/api/session/password', { currentPassword, newPassword });
    setDone(true);
  };
  return (
    <section aria-labelledby="change-password">
      <h2 id="change-password">{text.passwordTitle}</h2>
      <Form button={text.passwordButton} onSend={change}>
        {(wrong) => (
          <>
            <Field
              label={text.passwordNow}
              name="currentPassword"
              type="password"
              autoComplete="current-password"
              error={wrong('currentPassword')}
              required
            />
            <Field
              label={text.passwordNew}
              name="newPassword"
              type="password"
              autoComplete="new-password"
              hint={passwordHint}
              error={wrong('newPassword')}
              required
            />
          </>
        )}
      </Form>
      <p role="status">{isDone && text.passwordDone}</p>
    </section>
  );
}
