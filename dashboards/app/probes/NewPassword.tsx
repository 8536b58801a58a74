import type { ProbeCredential, ProbeView } from '../../../shared/api/types.ts';
import { api } from '../../common/api.ts';
import { Form } from '../Form.tsx';
import { text } from './words.ts';

interface NewPasswordProps {
  readonly probe: ProbeView;
  readonly onMade: (made: ProbeCredential) => Promise<void>;
}

/** A new password for a probe whose first one was lost, or that was shut out. */
export function NewPassword({ probe, onMade }: NewPasswordProps) {
  const make = async () =>
    onMade(await api.post<ProbeCredential>(`/api/probes/${encodeURIComponent(probe.id)}/secret`));
  return (
    <Form button={text.newPassword} onSend={make}>
      {() => <p class="hint">{text.newPasswordHint}</p>}
    </Form>
  );
}
