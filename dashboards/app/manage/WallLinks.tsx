import { useState } from 'preact/hooks';
import type { CreatedWallLink, WallLinkView } from '../../../shared/api/types.ts';
import { api } from '../../common/api.ts';
import { dayAndTime } from '../../common/format.ts';
import { Field, Form } from '../Form.tsx';
import { text as steps } from '../firstSteps/words.ts';
import { QrCode } from '../probes/QrCode.tsx';
import { useFetched } from '../useFetched.ts';
import { Add } from './Add.tsx';
import { text } from './words.ts';

/** Read-only links for screens on a wall; each can be taken back. */
export function WallLinks({ onChanged }: { readonly onChanged?: () => Promise<void> }) {
  const { data, failure, refetch } = useFetched<WallLinkView[]>('/api/wall-links');
  const [made, setMade] = useState<CreatedWallLink | null>(null);
  const create = async ({ label }: Readonly<Record<string, string>>) => {
    setMade(await api.post<CreatedWallLink>('/api/wall-links', { label }));
    await refetch();
    await onChanged?.();
  };
  const revoke = async (id: string) => {
    await api.post(`/api/wall-links/${encodeURIComponent(id)}/revoke`);
    await refetch();
    await onChanged?.();
  };
  return (
    <>
      {failure && <p class="wrong">{failure}</p>}
      {made && (
        <div class="note" aria-live="polite">
          <p>
            {steps.wallOpen} <span class="secret">{made.url}</span>
          </p>
          <QrCode content={made.url} label={steps.wallQr} />
        </div>
      )}
      <Add title={text.makeWallLink} open={data?.length === 0}>
        <Form button={steps.wallMake} onSend={create}>
          {(wrong) => (
            <Field
              label={steps.wallLabel}
              name="label"
              hint={steps.wallLabelHint}
              error={wrong('label')}
              required
            />
          )}
        </Form>
      </Add>
      <ul class="log">
        {data?.map((link) => (
          <li key={link.id}>
            {text.wallLinkMade(link.label, dayAndTime(link.createdMs), link.createdBy)}
            {link.revokedMs !== null ? (
              <span class="hint"> {text.takenBack(dayAndTime(link.revokedMs))}</span>
            ) : (
              <Form button={text.takeBack} onSend={() => revoke(link.id)}>
                {() => null}
              </Form>
            )}
          </li>
        ))}
      </ul>
    </>
  );
}
