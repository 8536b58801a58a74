import { useEffect } from 'preact/hooks';
import type { WallPile } from '../../shared/api/types.ts';
import { worstFirst } from '../../shared/api/wallOrder.ts';
import { Flag } from '../common/Flag.tsx';
import { age, percent, temperature, trend } from '../common/format.ts';
import { slowNowMs } from '../common/live.ts';
import { SectionPicture } from '../common/SectionPicture.tsx';
import { startWall, trouble, wall } from '../common/wallData.ts';
import { alarmStateWords, conditionWords, methodWords, stageWords, words } from '../common/words.ts';
import { linkTo } from './route.ts';
import { mayAct } from './session.ts';
import { appWords } from './words.ts';

/** All open piles, worst first, as a list for hand and pocket. */
export function YardList() {
  useEffect(startWall, []);
  if (wall.value === null) return <main class="page">{trouble.value ?? words.fetching}</main>;
  return (
    <main class="page">
      <h1 class="visually-hidden">{appWords.pilesWorstFirst}</h1>
      {wall.value.piles.length === 0 && !mayAct('owner') && (
        <p class="note">
          {words.noPiles} <a href={linkTo('manage')}>{appWords.startFirst}</a>
        </p>
      )}
      {mayAct('owner') && !hasProbes(wall.value.piles) && (
        <p class="note">
          {wall.value.piles.length === 0 ? words.noPiles : appWords.noProbes}{' '}
          <a href={linkTo('start')}>{appWords.goOn}</a>
        </p>
      )}
      <PileRows piles={wall.value.piles} />
    </main>
  );
}

/** A pile with a sensor in it: from then on the yard is watched. */
const hasProbes = (piles: readonly WallPile[]) => piles.some(({ points }) => points.length > 0);

export function PileRows({ piles }: { readonly piles: readonly WallPile[] }) {
  return (
    <ul class="pile-list">
      {[...piles].sort(worstFirst).map((pile) => (
        <PileRow key={pile.id} pile={pile} nowMs={slowNowMs.value} />
      ))}
    </ul>
  );
}

function PileRow({ pile, nowMs }: { readonly pile: WallPile; readonly nowMs: number }) {
  const worst = pile.alarms[0];
  const going = trend(pile.trendCelsiusPerHour);
  const goingWords = going && words.going(going.word, going.detail);
  const moistureWords = pile.moisture && words.moistureIs(percent(pile.moisture.fraction));
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
              <Flag priority={worst.priority} state={worst.state} />
              <span>
                <strong>{conditionWords[worst.condition]}</strong> {alarmStateWords[worst.state]}
              </span>
            </p>
          )}
        </div>
      </a>
    </li>
  );
}
