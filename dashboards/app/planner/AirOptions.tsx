import { air, plan } from './planState.ts';
import { text } from './words.ts';

/** What each number of pipes buys: the choice, and how far the farthest place then is from air. */
export function AirOptions({ onChoose }: { readonly onChoose: (channelCount: number | null) => void }) {
  const { channelCount, maximumDistance } = plan.value.container;
  const options = air.value?.options ?? [];
  const farWords = (distance: number) => (Number.isFinite(distance) ? `${distance.toFixed(2)} m` : 'no air');
  return (
    <fieldset class="choice air-options">
      <legend>How many, and how far the farthest place then is from air</legend>
      <label>
        <input type="radio" name="channels" checked={channelCount === null} onChange={() => onChoose(null)} />
        <span>
          {text.bestChannels}
          {channelCount === null && air.value ? `: ${air.value.channels.length}` : ''}
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
            {count === 0 ? 'none' : count}: {farWords(distance)}
            {distance <= maximumDistance ? ', enough' : ''}
          </span>
        </label>
      ))}
    </fieldset>
  );
}
