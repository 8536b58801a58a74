import { measures } from '../../common/words.ts';
import { cageWords } from './cageWords.ts';
import { air, plan } from './planState.ts';

/** What each number of pipes buys: the choice, and how far the farthest place then is from air. */
export function AirOptions({ onChoose }: { readonly onChoose: (channelCount: number | null) => void }) {
  const { channelCount, maximumDistance } = plan.value.container;
  const options = air.value?.options ?? [];
  const farWords = (distance: number) =>
    Number.isFinite(distance) ? measures.metres(distance.toFixed(2)) : cageWords.noAir;
  return (
    <fieldset class="choice air-options">
      <legend>{cageWords.howMany}</legend>
      <label>
        <input type="radio" name="channels" checked={channelCount === null} onChange={() => onChoose(null)} />
        <span>
          {channelCount === null && air.value
            ? cageWords.bestCount(air.value.channels.length)
            : cageWords.best}
        </span>
      </label>
      {options.map(({ count, distance }) => (
        <label key={count}>
          <input
            type="radio"
            name="channels"
            checked={channelCount === count}
            onChange={() => onChoose(count)}
          />
          <span>
            {(distance <= maximumDistance ? cageWords.countEnough : cageWords.countFar)(
              count,
              farWords(distance),
            )}
          </span>
        </label>
      ))}
    </fieldset>
  );
}
