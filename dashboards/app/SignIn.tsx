import { useEffect, useState } from 'preact/hooks';
import { shortestPassword } from '../../shared/api/constants.ts';
import type { LinkView, SessionView } from '../../shared/api/types.ts';
import { api } from '../common/api.ts';
import { Field, Form } from './Form.tsx';
import { goTo } from './route.ts';
import { failureText, session, takeSession } from './session.ts';

/** What a password must have, beside every field that takes a new one. */
export const passwordHint = `At least ${shortestPassword} characters; a few words in a row are good.`;

export function SignIn() {
  const send = async (values: Readonly<Record<string, string>>) => {
    takeSession(
      await api.post<SessionView>('/api/session', { login: values.login, password: values.password }),
    );
    goTo();
  };
  return (
    <main class="narrow">
      <h1>Sign in</h1>
      {session.value?.firstSetUpNeeded && (
        <p class="note">
          This yard has no owner yet. Open the set-up link that was printed where the service was started.
        </p>
      )}
      <Form button="Sign in" onSend={send}>
        {() => (
          <>
            <Field label="Sign-in name" name="login" autoComplete="username" autoCapitalize="none" required />
            <Field
              label="Password"
              name="password"
              type="password"
              autoComplete="current-password"
              required
            />
          </>
        )}
      </Form>
      <p class="hint">Forgotten it? The yard's owner can give you a link to set a new password.</p>
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
      <h1>{failure === null ? 'One moment...' : 'This link does not work'}</h1>
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
      <h1>Welcome, {link.name ?? link.login}</h1>
      <Form button="Open the yard" onSend={send}>
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
      <h1>Set a password</h1>
      <p>
        For {link.name ?? link.login} (sign-in name <strong>{link.login}</strong>).
      </p>
      <Form button="Set password and sign in" onSend={send}>
        {(wrong) => (
          <Field
            label="New password"
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
