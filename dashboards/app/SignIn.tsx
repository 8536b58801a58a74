import { useEffect, useState } from 'preact/hooks';
import { shortestPassword } from '../../shared/api/constants.ts';
import type { LinkView, SessionView } from '../../shared/api/types.ts';
import { api } from '../common/api.ts';
import { Sentence } from '../common/Sentence.tsx';
import { words } from '../common/words.ts';
import { Field, Form } from './Form.tsx';
import { goTo } from './route.ts';
import { failureText, session, takeSession } from './session.ts';
import { appWords } from './words.ts';

/** What a password must have, beside every field that takes a new one. */
export const passwordHint = appWords.passwordHint(shortestPassword);

export function SignIn() {
  const send = async (values: Readonly<Record<string, string>>) => {
    takeSession(
      await api.post<SessionView>('/api/session', { login: values.login, password: values.password }),
    );
    goTo();
  };
  return (
    <main class="narrow">
      <h1>{words.signIn}</h1>
      {session.value?.firstSetUpNeeded && <p class="note">{appWords.noOwner}</p>}
      <Form button={words.signIn} onSend={send}>
        {() => (
          <>
            <Field
              label={appWords.signInName}
              name="login"
              autoComplete="username"
              autoCapitalize="none"
              required
            />
            <Field
              label={appWords.password}
              name="password"
              type="password"
              autoComplete="current-password"
              required
            />
          </>
        )}
      </Form>
      <p class="hint">{appWords.forgotten}</p>
    </main>
  );
}

interface LinkProps {
  readonly token: string;
}

/** Looks at what a one-time link is for, without using it up. */
export function useLink(token: string): { link: LinkView | null; failure: string | null } {
  const [link, setLink] = useState<LinkView | null>(null);
  const [failure, setFailure] = useState<string | null>(null);
  useEffect(() => {
    api.post<LinkView>('/api/links/look', { token }).then(setLink, (error) => setFailure(failureText(error)));
  }, [token]);
  return { link, failure };
}

export function LinkTrouble({ failure }: { readonly failure: string | null }) {
  return (
    <main class="narrow">
      <h1>{failure === null ? appWords.oneMoment : appWords.linkTrouble}</h1>
      {failure !== null && <p>{failure}</p>}
    </main>
  );
}

/** Signs in by a one-time link; a button, so that a mail program's preview does not use it up. */
export function LinkSignIn({ token }: LinkProps) {
  const { link, failure } = useLink(token);
  if (link === null) return <LinkTrouble failure={failure} />;
  const send = async () => {
    takeSession(await api.post<SessionView>('/api/links/sign-in', { token }));
    goTo();
  };
  return (
    <main class="narrow">
      <h1>{appWords.welcome(link.name ?? link.login ?? '')}</h1>
      <Form button={appWords.openYard} onSend={send}>
        {() => null}
      </Form>
    </main>
  );
}

export function SetPassword({ token }: LinkProps) {
  const { link, failure } = useLink(token);
  if (link === null) return <LinkTrouble failure={failure} />;
  const send = async (values: Readonly<Record<string, string>>) => {
    takeSession(await api.post<SessionView>('/api/links/set-password', { token, password: values.password }));
    goTo();
  };
  return (
    <main class="narrow">
      <h1>{appWords.setPassword}</h1>
      <p>
        <Sentence
          of={appWords.setPasswordFor}
          with={{ name: link.name ?? link.login, login: <strong>{link.login}</strong> }}
        />
      </p>
      <Form button={appWords.setAndSignIn} onSend={send}>
        {(wrong) => (
          <Field
            label={appWords.newPassword}
            name="password"
            type="password"
            autoComplete="new-password"
            hint={passwordHint}
            error={wrong('password')}
            required
          />
        )}
      </Form>
    </main>
  );
}
