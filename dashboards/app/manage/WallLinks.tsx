import { useState } from 'preact/hooks';
import type { CreatedWallLink, WallLinkView } from '../../../shared/api/types.ts';
import { api } from '../../common/api.ts';
import { dayAndTime } from '../../common/format.ts';
import { Field, Form } from '../Form.tsx';
import { text as steps } from '../firstSteps/words.ts';
import { QrCode } from '../probes/QrCode.tsx';
import { useFetched } from '../useFetched.ts';
import { Add } from './Add.tsx';

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
      <Add title="Make a wall link" open={data?.length === 0}>
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
            {link.label}, made {dayAndTime(link.createdMs)} by {link.createdBy}
            {link.revokedMs !== null ? (
              <span class="hint"> taken back {dayAndTime(link.revokedMs)}</span>
            ) : (
              <Form button="Take it back" onSend={() => revoke(link.id)}>
                {() => null}
              </Form>
            )}
          </li>
        ))}
      </ul>
    </>
  );
}
