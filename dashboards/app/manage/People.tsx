import { useState } from 'preact/hooks';
import type { ContactWayView, PersonView } from '../../../shared/api/types.ts';
import { api } from '../../common/api.ts';
import { Sentence } from '../../common/Sentence.tsx';
import { priorityWords } from '../../common/words.ts';
import { Field, Form } from '../Form.tsx';
import { useFetched } from '../useFetched.ts';
import { AddPerson, GiveLink, passwordLink } from './AddPerson.tsx';
import { ContactWays, wayWords } from './ContactWays.tsx';
import { LanguageField } from './LanguageField.tsx';
import { TextsFrom } from './TextsFrom.tsx';
import { roleChoices, text } from './words.ts';

/** Who may sign in, who is told, and by what. */
export function People() {
  const people = useFetched<PersonView[]>('/api/people', ({ kind }) => kind === 'people');
  const ways = useFetched<ContactWayView[]>('/api/contact-ways', ({ kind }) => kind === 'people');
  const refetch = async () => {
    await Promise.all([people.refetch(), ways.refetch()]);
  };
  return (
    <>
      {people.failure && <p class="wrong">{people.failure}</p>}
      <AddPerson isOpen={people.data?.length === 1} onDone={refetch} />
      <ul class="log">
        {people.data?.map((person) => (
          <PersonRow
            key={person.id}
            person={person}
            ways={ways.data?.filter(({ personId }) => personId === person.id) ?? []}
            onDone={refetch}
          />
        ))}
      </ul>
    </>
  );
}

interface PersonProps {
  readonly person: PersonView;
  readonly ways: readonly ContactWayView[];
  readonly onDone: () => Promise<void>;
}

function PersonRow({ person, ways, onDone }: PersonProps) {
  const [link, setLink] = useState<string | null>(null);
  const handOver = async () => setLink(await passwordLink(person));
  const signOut = async () => {
    await api.post(`/api/people/${encodeURIComponent(person.id)}/sign-out`);
  };
  const isTexted = person.receivesTexts && person.phone !== null;
  const usable = ways.filter(({ goneMs }) => goneMs === null);
  const facts = [
    roleChoices.find(([role]) => role === person.role)![1],
    ...(isTexted ? [text.textedAt(person.phone!, priorityWords[person.textsFrom])] : []),
    ...usable.map(wayWords),
  ];
  return (
    <li>
      <Sentence
        of={text.personRow}
        with={{ name: <strong>{person.name}</strong>, login: person.login, facts: facts.join(', ') }}
      />
      {!isTexted && usable.length === 0 && <span class="hint">, {text.notReached}</span>}
      {person.disabled && <span class="wrong"> {text.mayNotSignIn}</span>}
      {link !== null && <GiveLink name={person.name} url={link} />}
      <details>
        <summary>
          {text.change} <span class="visually-hidden">{person.name}</span>
        </summary>
        <Change person={person} onDone={onDone} />
        <ContactWays personId={person.id} ways={ways} onDone={onDone} />
        <div class="buttons">
          <Form button={text.newLink} onSend={handOver}>
            {() => null}
          </Form>
          <Form button={text.signOutEverywhere} onSend={signOut}>
            {() => null}
          </Form>
        </div>
      </details>
    </li>
  );
}

function Change({ person, onDone }: { readonly person: PersonView; readonly onDone: () => Promise<void> }) {
  const save = async ({ name, phone, role, disabled, ...more }: Readonly<Record<string, string>>) => {
    await api.patch(`/api/people/${encodeURIComponent(person.id)}`, {
      ...{ name, role, textsFrom: more.textsFrom, language: more.language, phone: phone || null },
      receivesTexts: Boolean(phone),
      disabled: disabled === 'yes',
    });
    await onDone();
  };
  return (
    <Form button={text.save} onSend={save}>
      {(wrong) => (
        <>
          <Field label={text.name} name="name" value={person.name} error={wrong('name')} required />
          <Field
            label={text.phone}
            name="phone"
            type="tel"
            value={person.phone ?? ''}
            hint={text.phoneHint}
            error={wrong('phone')}
          />
          <TextsFrom label={text.textFrom} name="textsFrom" value={person.textsFrom} />
          <LanguageField value={person.language} />
          <Field
            label={text.mayDo}
            name="role"
            choices={roleChoices}
            value={person.role}
            error={wrong('role')}
          />
          <Field
            label={text.maySignIn}
            name="disabled"
            choices={[
              ['no', text.yes],
              ['yes', text.noShutOut],
            ]}
            value={person.disabled ? 'yes' : 'no'}
          />
        </>
      )}
    </Form>
  );
}
