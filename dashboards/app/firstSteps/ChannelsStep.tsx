import { WarmOne } from '../probes/WarmOne.tsx';
import { linkTo } from '../route.ts';
import type { StepProps } from './FirstSteps.tsx';
import type { StepKey } from './steps.ts';
import { text } from './words.ts';

/** Which sensor is which, and where each stands. */
export function ChannelsStep({ facts, onDone }: StepProps) {
  const piles = facts.piles.filter(({ endedMs }) => endedMs === null);
  if (piles.length === 0) return <Missing what={text.needPile} step="pile" />;
  if (facts.probes.every(({ channels }) => channels.length === 0))
    return <Missing what={text.needProbe} step="probe" />;
  return (
    <>
      <p>{text.channelsLead}</p>
      <WarmOne probes={facts.probes} piles={piles} placements={facts.placements} onPlaced={onDone} />
    </>
  );
}

/** A step that cannot be taken yet, with the way to the one before it. */
export function Missing({ what, step }: { readonly what: string; readonly step: StepKey }) {
  return (
    <p class="note">
      {what} <a href={linkTo('start', step)}>{text.toStep}</a>
    </p>
  );
}
