import type { ReplayOutcome } from '../../../shared/rules/replayJob.ts';
import { duration } from '../../common/format.ts';
import { limitWords } from './words.ts';

/** The answer in two or three sentences, before any table. */
export function Headline({ outcome }: { readonly outcome: ReplayOutcome }) {
  const { current, candidate, againstCurrent } = outcome;
  if (candidate === null || againstCurrent === null) return <p class="note">{limitWords.asItIs}</p>;
  const { come, gone, newlyMissed, newlyCaught, warningMinutesWon } = againstCurrent;
  const same = come.length + gone.length + newlyMissed.length + newlyCaught.length === 0;
  const nothing =
    same && againstCurrent.textsMore === 0 && warningMinutesWon.every(({ minutes }) => minutes === 0);
  const won = warningMinutesWon.map(({ minutes }) => minutes);
  const worst = Math.min(0, ...won);
  const best = Math.max(0, ...won);
  return (
    <div class={`note headline ${newlyMissed.length > 0 ? 'is-grave' : ''}`} role="status">
      {nothing ? (
        <p>{limitWords.noDifference}</p>
      ) : (
        <>
          <p class="first-action">
            <strong>{limitWords.textsNot(candidate.texts.length, current.texts.length)}</strong>
          </p>
          <p>{limitWords.comeAndGone(come.length, gone.length)}</p>
          {worst < 0 && <p>{limitWords.lost(duration(-worst * 60_000))}</p>}
          {best > 0 && <p>{limitWords.won(duration(best * 60_000))}</p>}
          {worst === 0 && best === 0 && won.length > 0 && <p>{limitWords.sameWarning}</p>}
        </>
      )}
      {newlyMissed.length > 0 && <p class="wrong">{limitWords.missedWords(newlyMissed.length)}</p>}
      {newlyCaught.length > 0 && <p>{limitWords.caughtWords(newlyCaught.length)}</p>}
    </div>
  );
}
