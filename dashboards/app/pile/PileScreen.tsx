import type { PileChannel, PilePage, SectionPoint } from '../../../shared/api/types.ts';
import { positions } from '../../../shared/yard/yard.ts';
import { age, duration, percent, temperature, trend } from '../../common/format.ts';
import { slowNowMs } from '../../common/live.ts';
import { SectionPicture } from '../../common/SectionPicture.tsx';
import { methodWords, positionWords, stageWords, words } from '../../common/words.ts';
import { reasonWords } from '../reasonWords.ts';
import { linkTo } from '../route.ts';
import { useFetched } from '../useFetched.ts';
import { AlarmCard } from './AlarmCard.tsx';
import { Chart } from './Chart.tsx';
import { History } from './History.tsx';
import { Journal } from './Journal.tsx';
import { Texts } from './Texts.tsx';

/** One pile, understood in ten seconds: what is wrong and what to do first, then how it got there. */
export function PileScreen({ pileId }: { readonly pileId: string }) {
  const path = `/api/piles/${encodeURIComponent(pileId)}`;
  const { data, failure, refetch } = useFetched<PilePage>(`${path}/page`, ({ kind, id }) =>
    kind === 'pile' ? id === pileId : kind === 'alarm' || kind === 'messages' || kind === 'probe',
  );
  if (data === null) return <main class="page">{failure ?? 'Fetching the pile...'}</main>;
  return (
    <main class="page pile">
      {failure && <p class="wrong">{failure}</p>}
      <Head page={data} />
      <section aria-labelledby="alarms-title">
        <h2 id="alarms-title">What wants doing</h2>
        {data.alarms.length === 0 && <p class="hint">Nothing just now.</p>}
        {data.alarms.map((alarm) => (
          <AlarmCard key={alarm.id} alarm={alarm} onDone={refetch} />
        ))}
      </section>
      <Chart page={data} />
      <p>
        <a href={linkTo('piles', pileId, 'limits')}>{words.tuneLimits}</a>{' '}
        <a href={linkTo('records', pileId)}>{words.toRecord}</a>
      </p>
      <Journal page={data} onDone={refetch} />
      <Texts messages={data.messages} />
      <History transitions={data.history} />
    </main>
  );
}

function Head({ page }: { readonly page: PilePage }) {
  const { pile, status } = page;
  const now = slowNowMs.value;
  const going = trend(status?.trendCelsiusPerHour ?? null);
  return (
    <section class="pile-head">
      <SectionPicture id={pile.id} method={pile.method} points={sectionPoints(page)} nowMs={now} />
      <div>
        <h1>{pile.name}</h1>
        <p class="hint">
          {pile.place}, {methodWords[pile.method]}, built {duration(now - pile.startedMs)} ago
        </p>
        <p class="big-core">
          {status?.coreCelsius != null ? temperature(status.coreCelsius) : words.noReading}
          {status?.coreTimeMs != null && <span class="hint"> core, {age(now - status.coreTimeMs)}</span>}
        </p>
        <ul class="facts-list">
          {status?.stage && <li>{stageWords[status.stage]}</li>}
          {going && (
            <li>
              {going.word} {going.detail}
            </li>
          )}
          {page.air && <li>air {temperature(page.air.celsius)}</li>}
          {status?.moistureFraction != null && (
            <li>
              {percent(status.moistureFraction)} {words.moisture}
            </li>
          )}
          {status?.peakCelsius != null && <li>highest so far {temperature(status.peakCelsius)}</li>}
          {status && status.hoursAbove55 > 0 && (
            <li>
              {Math.round(status.hoursAbove55)} h at {temperature(55, 0)} or more
            </li>
          )}
          {status?.sanitisationProgress != null && (
            <li>
              {words.sanitisation} {percent(status.sanitisationProgress)}
            </li>
          )}
        </ul>
      </div>
      <Points page={page} nowMs={now} />
    </section>
  );
}

function sectionPoints(page: PilePage): SectionPoint[] {
  return page.channels
    .filter(({ pileId, quantity }) => pileId !== null && quantity === 'temperature')
    .map(({ position, depthMetres, lastGood }) => ({
      position,
      depthMetres,
      celsius: lastGood?.value ?? null,
      timeMs: lastGood?.timeMs ?? null,
    }));
}

/** Every sensor in words: where, what it says, how old, and why it is not believed when it is not. */
function Points({ page, nowMs }: { readonly page: PilePage; readonly nowMs: number }) {
  const shown = [...page.channels]
    .sort(insideOut)
    .filter(({ pileId, quantity }) => pileId !== null && ['temperature', 'moisture'].includes(quantity));
  return (
    <ul class="points">
      {shown.map((channel) => (
        <Point key={channel.id} channel={channel} nowMs={nowMs} />
      ))}
    </ul>
  );
}

/** Core first, then outwards; deeper before shallower. */
function insideOut(one: PileChannel, other: PileChannel): number {
  const rank = ({ position }: PileChannel) => positions.indexOf(position);
  return rank(one) - rank(other) || (other.depthMetres ?? 0) - (one.depthMetres ?? 0);
}

function Point({ channel, nowMs }: { readonly channel: PileChannel; readonly nowMs: number }) {
  const { last, lastGood, quantity, position, depthMetres } = channel;
  const value = lastGood && (quantity === 'moisture' ? percent(lastGood.value) : temperature(lastGood.value));
  const doubt = last !== null && last.quality !== 'good' ? last.reason : null;
  return (
    <li>
      {quantity === 'moisture' ? words.moisture : positionWords[position]}
      {depthMetres !== null && ` at ${depthMetres.toFixed(2)} m`}: {value ?? words.noReading}
      {lastGood && <span class="hint"> {age(nowMs - lastGood.timeMs)}</span>}
      {doubt !== null && <strong>, not believed since: {reasonWords(doubt)}</strong>}
    </li>
  );
}
