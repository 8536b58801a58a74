import { useState } from 'preact/hooks';
import { api } from '../../common/api.ts';
import { Field, Form } from '../Form.tsx';
import { AddPerson } from '../manage/AddPerson.tsx';
import { TellThisPhone } from '../me/TellThisPhone.tsx';
import { session } from '../session.ts';
import type { StepProps } from './FirstSteps.tsx';
import { text } from './words.ts';

/** The owner's own number, and whoever else should be told. */
export function PeopleStep({ facts, onDone }: StepProps) {
  const [isSaved, setSaved] = useState(false);
  const own = facts.people.find(({ id }) => id === session.value?.person?.id);
  const others = facts.people.filter(({ id }) => id !== own?.id);
  if (own === undefined) return null;
  const save = async ({ phone }: Readonly<Record<string, string>>) => {
    const change = { phone: phone || null, receivesTexts: Boolean(phone) };
    await api.patch(`/api/people/${encodeURIComponent(own.id)}`, change);
    setSaved(true);
    await onDone();
  };
  return (
    <>
      <p>{text.peopleLead}</p>
      <Form button={text.savePhone} onSend={save}>
        {(wrong) => (
          <Field
            label={text.yourPhone}
            name="phone"
            type="tel"
            autoComplete="tel"
            value={own.phone ?? ''}
            hint={text.phoneHint}
            error={wrong('phone')}
          />
        )}
      </Form>
      <p role="status">{isSaved && text.saved}</p>
      <TellThisPhone quiet />
      <h2>{text.addAnother}</h2>
      <ul class="log">
        {others.map(({ id, name, phone }) => (
          <li key={id}>
            <strong>{name}</strong> {phone && <span class="hint">{phone}</span>}
          </li>
        ))}
      </ul>
      <AddPerson isOpen={false} onDone={onDone} />
    </>
  );
}
