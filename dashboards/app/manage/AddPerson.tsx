import { useState } from 'preact/hooks';
import type { HandOverLink, PersonView } from '../../../shared/api/types.ts';
import { api } from '../../common/api.ts';
import { Field, Form } from '../Form.tsx';
import { Add } from './Add.tsx';
import { LanguageField } from './LanguageField.tsx';
import { TextsFrom } from './TextsFrom.tsx';
import { roleChoices, text } from './words.ts';

interface AddPersonProps {
  readonly isOpen: boolean;
  readonly onDone: () => Promise<void>;
}

/** Adds a person and shows the link by which they choose their password. */
export function AddPerson({ isOpen, onDone }: AddPersonProps) {
  const [link, setLink] = useState<{ name: string; url: string } | null>(null);
  const add = async ({ name, login, role, phone, ...more }: Readonly<Record<string, string>>) => {
    const person = await api.post<PersonView>('/api/people', {
      ...{ name, login, role, textsFrom: more.textsFrom, language: more.language },
      phone: phone || null,
      receivesTexts: Boolean(phone),
    });
    setLink({ name: person.name, url: await passwordLink(person) });
    await onDone();
  };
  return (
    <>
      {link && <GiveLink {...link} />}
      <Add title={text.addPerson} open={isOpen}>
        <Form key={link?.url} button={text.add} onSend={add}>
          {(wrong) => (
            <>
              <Field label={text.name} name="name" error={wrong('name')} required />
              <Field label={text.login} name="login" autoCapitalize="none" error={wrong('login')} required />
              <Field label={text.mayDo} name="role" choices={roleChoices} />
              <Field
                label={text.phoneOptional}
                name="phone"
                type="tel"
                hint={text.phoneHint}
                error={wrong('phone')}
              />
              <TextsFrom label={text.textFrom} name="textsFrom" />
              <LanguageField />
            </>
          )}
        </Form>
      </Add>
    </>
  );
}

/** Makes a one-time link by which a person chooses a password. */
export async function passwordLink({ id }: PersonView): Promise<string> {
  const { url } = await api.post<HandOverLink>(`/api/people/${encodeURIComponent(id)}/password-link`);
  return url;
}

export function GiveLink({ name, url }: { readonly name: string; readonly url: string }) {
  return (
    <p class="note" aria-live="polite">
      {text.giveLink(name)} <span class="secret">{url}</span>
    </p>
  );
}
