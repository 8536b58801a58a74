import { useState } from 'preact/hooks';
import type { ProbeCredential } from '../../../shared/api/types.ts';
import { Credential } from '../probes/Credential.tsx';
import { Enrol } from '../probes/Enrol.tsx';
import { FirstReading } from '../probes/FirstReading.tsx';
import { NewPassword } from '../probes/NewPassword.tsx';
import type { StepProps } from './FirstSteps.tsx';
import { text } from './words.ts';

/** A probe gets its name and password, and is waited for. */
export function ProbeStep({ facts, onDone }: StepProps) {
  const [made, setMade] = useState<ProbeCredential | null>(null);
  const [isAdding, setAdding] = useState(false);
  const take = async (credential: ProbeCredential) => {
    setMade(credential);
    setAdding(false);
    await onDone();
  };
  const probes = facts.probes.filter(({ revokedMs }) => revokedMs === null);
  // The newest is the one somebody is busy with.
  const [newest] = [...probes].sort((one, other) => other.createdMs - one.createdMs);
  const probe = probes.find(({ id }) => id === made?.probe.id) ?? newest;
  if (probe === undefined || isAdding)
    return (
      <>
        <p>{text.probeLead}</p>
        <Enrol onMade={take} />
      </>
    );
  return (
    <>
      {made !== null && made.probe.id === probe.id && <Credential made={made} />}
      <FirstReading key={probe.id} probe={probe} onArrived={onDone} />
      {made?.probe.id !== probe.id && probe.channels.length === 0 && (
        <NewPassword probe={probe} onMade={take} />
      )}
      <button type="button" class="quiet" onClick={() => setAdding(true)}>
        {text.anotherProbe}
      </button>
    </>
  );
}
