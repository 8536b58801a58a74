import { useState } from 'preact/hooks';
import type { SessionView } from '../../../shared/api/types.ts';
import { api, Refusal } from '../../common/api.ts';
import { Field, Form } from '../Form.tsx';
import { goTo } from '../route.ts';
import { LinkTrouble, passwordHint, useLink } from '../SignIn.tsx';
import { takeSession } from '../session.ts';
import { stepKeys } from './steps.ts';
import { text } from './words.ts';
import { YardFields, type YardValues, yardOf } from './YardFields.tsx';

/** Americans read Fahrenheit; everybody else the other one. */
const usualUnit = () => (/^en-(US|LR|BS|BZ|KY|PW)/.test(navigator.language) ? 'F' : 'C');

const emptyYard = (): YardValues => ({
  name: '',
  timeZone: Intl.DateTimeFormat().resolvedOptions().timeZone,
  temperatureUnit: usualUnit(),
  altitudeMetres: 0,
});

/** The first two steps of a new yard, by the printed link: the yard, then its owner. Both are made together. */
export function FirstSetUp({ token }: { readonly token: string }) {
  const { link, failure } = useLink(token);
  const [yard, setYard] = useState(emptyYard);
  const [isAtYou, setAtYou] = useState(false);
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  if (link === null) return <LinkTrouble failure={failure} />;
  const send = async ({ name, login, password }: Readonly<Record<string, string>>) => {
    try {
      const person = { name, login, password };
      takeSession(await api.post<SessionView>('/api/links/first-set-up', { token, yard, person }));
      goTo('start', 'people');
    } catch (error) {
      // What is wrong with the yard is shown beside its own fields.
      const about = error instanceof Refusal ? error.problem.errors : undefined;
      if (about?.some(({ pointer }) => pointer.startsWith('#/yard/'))) {
        setRefusal(error as Refusal);
        setAtYou(false);
      }
      throw error;
    }
  };
  return (
    <main class="narrow">
      <p class="hint">{text.step(1, stepKeys.length)}</p>
      {isAtYou ? (
        <>
          <h1>{text.you}</h1>
          <p>{text.youLead}</p>
          <Form key="you" button={text.startYard} onSend={send}>
            {(wrong) => <YouFields wrong={wrong} />}
          </Form>
          <p>
            <button type="button" class="quiet" onClick={() => setAtYou(false)}>
              {text.back}
            </button>
          </p>
        </>
      ) : (
        <>
          <h1>{text.yourYard}</h1>
          <p>{text.yourYardLead}</p>
          <Form
            key="yard"
            button={text.next}
            onSend={async (fields) => {
              setYard(yardOf(fields));
              setAtYou(true);
            }}
          >
            {() => <YardFields value={yard} wrong={(field) => refusal?.field(`yard/${field}`) ?? null} />}
          </Form>
        </>
      )}
    </main>
  );
}

function YouFields({ wrong }: { readonly wrong: (field: string) => string | null }) {
  return (
    <>
      <Field label={text.yourName} name="name" autoComplete="name" error={wrong('person/name')} required />
      <Field
        label={text.login}
        name="login"
        autoComplete="username"
        autoCapitalize="none"
        hint={text.loginHint}
        error={wrong('person/login')}
        required
      />
      <Field
        label={text.password}
        name="password"
        type="password"
        autoComplete="new-password"
        hint={passwordHint}
        error={wrong('person/password')}
        required
      />
    </>
  );
}
