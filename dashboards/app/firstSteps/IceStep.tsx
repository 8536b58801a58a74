import { IceBath } from '../probes/IceBath.tsx';
import { Missing } from './ChannelsStep.tsx';
import type { StepProps } from './FirstSteps.tsx';
import { text } from './words.ts';

/** Checks sensors in ice and water. */
export function IceStep({ facts, onDone }: StepProps) {
  if (facts.probes.every(({ channels }) => channels.length === 0))
    return <Missing what={text.needProbe} step="probe" />;
  return (
    <>
      <p>{text.iceLead}</p>
      <IceBath
        probes={facts.probes}
        calibrations={facts.calibrations}
        placements={facts.placements}
        onSaved={onDone}
      />
    </>
  );
}
