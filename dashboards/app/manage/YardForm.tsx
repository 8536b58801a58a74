import { useState } from 'preact/hooks';
import type { YardView } from '../../../shared/api/types.ts';
import { api } from '../../common/api.ts';
import { Form } from '../Form.tsx';
import { text as steps } from '../firstSteps/words.ts';
import { YardFields, yardOf } from '../firstSteps/YardFields.tsx';
import { fetchSession, session } from '../session.ts';
import { text } from './words.ts';

/** Name, time zone and unit of the yard. */
export function YardSettings() {
  const [isSaved, setSaved] = useState(false);
  const yard = session.value?.yard;
  if (!yard) return null;
  const save = async (fields: Readonly<Record<string, string>>) => {
    await api.patch<YardView>('/api/yard', yardOf(fields));
    await fetchSession();
    setSaved(true);
  };
  return (
    <>
      <Form button={text.saveYard} onSend={save}>
        {(wrong) => <YardFields value={yard} wrong={(field) => wrong(field)} />}
      </Form>
      <p role="status">{isSaved && steps.saved}</p>
    </>
  );
}
