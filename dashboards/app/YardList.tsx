import type { WallPile, WallView } from '../../shared/api/types.ts';
import { Flag } from '../common/Flag.tsx';
import { age, percent, temperature, trend } from '../common/format.ts';
import { serverNowMs } from '../common/live.ts';
import { SectionPicture } from '../common/SectionPicture.tsx';
import { alarmStateWords, conditionWords, methodWords, stageWords, words } from '../common/words.ts';
import { linkTo } from './route.ts';
import { useFetched } from './useFetched.ts';

/** All open piles, worst first, as a list for hand and pocket. */
export function YardList() {
  const { data, failure } = useFetched<WallView>('/api/wall');
  if (data === null) return <main class="page">{failure ?? 'Fetching the yard...'}</main>;
  return (
    <main class="page">
      <h1 class="visually-hidden">Piles, worst first</h1>
      {failure && <p class="wrong">{failure}</p>}
      {data.piles.length === 0 && (
        <p class="note">
          {words.noPiles} <a href={linkTo('manage')}>Start the first one.</a>
        </p>
      )}
      <ul class="pile-list">
        {data.piles.map((pile) => (
          <PileRow key={pile.id} pile={pile} nowMs={serverNowMs.value} />
        ))}
      </ul>
    </main>
  );
}

function PileRow({ pile, nowMs }: { readonly pile: WallPile; readonly nowMs: number }) {
  const worst = pile.alarms[0];
  const going = trend(pile.trendCelsiusPerHour);
  const goingWords = going && `${going.word} ${going.detail}`.trim();
  const moistureWords = pile.moisture && `${percent(pile.moisture.fraction)} ${words.moisture}`;
  return (
    <li class={worst ? `wants-${worst.priority}` : ''}>
      <a href={linkTo('piles', pile.id)}>
        <SectionPicture id={pile.id} method={pile.method} points={pile.points} nowMs={nowMs} />
        <div>
          <h2>{pile.name}</h2>
          <p class="hint">
            {pile.place}, {methodWords[pile.method]}
            {pile.stage && `, ${stageWords[pile.stage]}`}
          </p>
          <p>
            <strong class="row-core">{pile.core ? temperature(pile.core.celsius) : words.noReading}</strong>{' '}
            {pile.core && <span class="hint">{age(nowMs - pile.core.timeMs)}</span>}
          </p>
          <p>{[goingWords, moistureWords].filter(Boolean).join(', ')}</p>
          {worst && (
            <p class="row-call">
              <Flag priority={worst.priority} state={worst.state} />{' '}
              <strong>{conditionWords[worst.condition]}</strong> {alarmStateWords[worst.state]}
            </p>
          )}
        </div>
      </a>
    </li>
  );
}
