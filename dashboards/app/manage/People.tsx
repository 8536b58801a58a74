import { useState } from 'preact/hooks';
import { priorities } from '../../../shared/alarms/alarm.ts';
import type { HandOverLink, PersonView } from '../../../shared/api/types.ts';
import type { roles } from '../../../shared/yard/people.ts';
import { api } from '../../common/api.ts';
import { priorityWords } from '../../common/words.ts';
import { Field, Form } from '../Form.tsx';
import { useFetched } from '../useFetched.ts';
import { Add } from './Add.tsx';

const roleChoices = [
  ['viewer', 'may look'],
  ['keeper', 'may look and act'],
  ['owner', 'may do everything'],
] as const satisfies readonly (readonly [(typeof roles)[number], string])[];

/** Who may sign in and who is texted. */
export function People() {
  const { data, failure, refetch } = useFetched<PersonView[]>('/api/people', ({ kind }) => kind === 'people');
  const [link, setLink] = useState<{ name: string; url: string } | null>(null);
  const add = async ({ name, login, role, phone, textsFrom }: Readonly<Record<string, string>>) => {
    const person = await api.post<PersonView>('/api/people', {
      name,
      login,
      role,
      phone: phone || null,
      receivesTexts: Boolean(phone),
      textsFrom,
    });
    await handOver(person);
    await refetch();
  };
  const handOver = async (person: PersonView) => {
    const { url } = await api.post<HandOverLink>(
      `/api/people/${encodeURIComponent(person.id)}/password-link`,
    );
    setLink({ name: person.name, url });
  };
  return (
    <>
      {failure && <p class="wrong">{failure}</p>}
      {link && (
        <p class="note" aria-live="polite">
          Give this link to {link.name}; it works once, to set a password:{' '}
          <span class="secret">{link.url}</span>
        </p>
      )}
      <Add title="Add a person" open={data?.length === 1}>
        <Form button="Add" onSend={add}>
          {(wrong) => (
            <>
              <Field label="Name" name="name" error={wrong('name')} required />
              <Field
                label="Sign-in name"
                name="login"
                autoCapitalize="none"
                error={wrong('login')}
                required
              />
              <Field label="What they may do" name="role" choices={roleChoices} />
              <Field
                label="Phone for texts (optional)"
                name="phone"
                type="tel"
                hint="With + and country code: +441632960123"
                error={wrong('phone')}
              />
              <TextsFrom />
            </>
          )}
        </Form>
      </Add>
      <ul class="log">
        {data?.map((person) => (
          <li key={person.id}>
            <strong>{person.name}</strong> ({person.login}),{' '}
            {roleChoices.find(([role]) => role === person.role)?.[1]}
            {person.receivesTexts &&
              person.phone &&
              `, texted at ${person.phone} from "${priorityWords[person.textsFrom]}"`}
            {person.disabled && <span class="wrong"> may not sign in</span>}
            <details>
              <summary>Change</summary>
              <Change person={person} onDone={refetch} />
              <Form button="Make a link for a new password" onSend={() => handOver(person)}>
                {() => null}
              </Form>
            </details>
          </li>
        ))}
      </ul>
    </>
  );
}

function TextsFrom({ value = 'medium' }: { readonly value?: string }) {
  return (
    <Field
      label="Text them from"
      name="textsFrom"
      value={value}
      choices={priorities.map((priority) => [priority, priorityWords[priority]])}
    />
  );
}

function Change({ person, onDone }: { readonly person: PersonView; readonly onDone: () => Promise<void> }) {
  const save = async ({ phone, role, textsFrom, disabled }: Readonly<Record<string, string>>) => {
    const change = {
      phone: phone || null,
      receivesTexts: Boolean(phone),
      role,
      textsFrom,
      disabled: disabled === 'yes',
    };
    await api.patch(`/api/people/${encodeURIComponent(person.id)}`, change);
    await onDone();
  };
  return (
    <Form button="Save" onSend={save}>
      {(wrong) => (
        <>
          <Field
            label="Phone for texts"
            name="phone"
            type="tel"
            value={person.phone ?? ''}
            error={wrong('phone')}
          />
          <TextsFrom value={person.textsFrom} />
          <Field
            label="What they may do"
            name="role"
            choices={roleChoices}
            value={person.role}
            error={wrong('role')}
          />
          <Field
            label="May sign in"
            name="disabled"
            choices={[
              ['no', 'yes'],
              ['yes', 'no, shut out'],
            ]}
            value={person.disabled ? 'yes' : 'no'}
          />
        </>
      )}
    </Form>
  );
}
