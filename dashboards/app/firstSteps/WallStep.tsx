import { WallLinks } from '../manage/WallLinks.tsx';
import type { StepProps } from './FirstSteps.tsx';
import { text } from './words.ts';

/** The link by which a screen in the shed shows the yard. */
export function WallStep({ onDone }: StepProps) {
  return (
    <>
      <p>{text.wallLead}</p>
      <WallLinks onChanged={onDone} />
    </>
  );
}
