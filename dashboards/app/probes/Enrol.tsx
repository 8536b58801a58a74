import type { ProbeCredential } from '../../../shared/api/types.ts';
import { api } from '../../common/api.ts';
import { Field, Form } from '../Form.tsx';
import { text } from './words.ts';

/** Enrols a probe; the credential is handed on, to be shown this once. */
export function Enrol({ onMade }: { readonly onMade: (made: ProbeCredential) => Promise<void> }) {
  const enrol = async ({ label, id }: Readonly<Record<string, string>>) =>
    onMade(await api.post<ProbeCredential>('/api/probes', { label, ...(id ? { id } : {}) }));
  return (
    <Form button={text.makeCredential} onSend={enrol}>
      {(wrong) => (
        <>
          <Field label={text.labelField} name="label" hint={text.labelHint} error={wrong('label')} required />
          <Field label={text.idField} name="id" hint={text.idHint} error={wrong('id')} />
        </>
      )}
    </Form>
  );
}
