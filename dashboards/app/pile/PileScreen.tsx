import { useEffect } from 'preact/hooks';
import type { PilePage } from '../../../shared/api/types.ts';
import { words } from '../../common/words.ts';
import { linkTo } from '../route.ts';
import { useFetched } from '../useFetched.ts';
import { AlarmCard } from './AlarmCard.tsx';
import { Head } from './Head.tsx';
import { History } from './History.tsx';
import { Journal } from './Journal.tsx';
import { Milestones } from './Milestones.tsx';
import { Past } from './Past.tsx';
import { DidIt, useDeed } from './press/DidIt.tsx';
import { arrived } from './press/outbox.ts';
import { ThumbBar } from './press/ThumbBar.tsx';
import './pile.css';
import { Texts } from './Texts.tsx';
import { text } from './words.ts';

/** One pile, understood in ten seconds: what is wrong and what to do first, then how it stands, went and will go. */
export function PileScreen({ pileId }: { readonly pileId: string }) {
  const path = `/api/piles/${encodeURIComponent(pileId)}`;
  const { data, failure, refetch } = useFetched<PilePage>(`${path}/page`, ({ kind, id }) =>
    kind === 'pile' ? id === pileId : kind === 'alarm' || kind === 'messages' || kind === 'probe',
  );
  const [deed, setDeed] = useDeed();
  const sent = arrived.value;
  useEffect(() => {
    if (sent > 0) void refetch();
  }, [sent]);
  if (data === null) return <main class="page">{failure ?? text.fetchingPile}</main>;
  return (
    <main class="page pile">
      {failure && <p class="wrong">{failure}</p>}
      <Head page={data} />
      {data.alarms.length > 0 && (
        <section aria-labelledby="alarms-title">
          <h2 id="alarms-title">{text.wants}</h2>
          {data.alarms.map((alarm) => (
            <AlarmCard key={alarm.id} pileId={pileId} alarm={alarm} onDone={refetch} />
          ))}
        </section>
      )}
      <Past page={data} />
      <p>
        <a href={linkTo('piles', pileId, 'limits')}>{words.tuneLimits}</a>{' '}
        <a href={linkTo('records', pileId)}>{words.toRecord}</a>
      </p>
      <Journal page={data} onDone={refetch} />
      <Milestones page={data} />
      <Texts messages={data.messages} />
      <History transitions={data.history} />
      <ThumbBar page={data} onDeed={setDeed} />
      {deed !== null && <DidIt pileId={pileId} kind={deed} onKind={setDeed} />}
    </main>
  );
}
