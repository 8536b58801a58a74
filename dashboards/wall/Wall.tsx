import { useEffect, useState } from 'preact/hooks';
import type { MapPlace } from '../../shared/api/types.ts';
import { hourOfDay } from '../common/format.ts';
import { link, slowNowMs } from '../common/live.ts';
import { isLost, NotLive } from '../common/NotLive.tsx';
import { startWall, trouble, wall } from '../common/wallData.ts';
import { words } from '../common/words.ts';
import { driftAt } from './drift.ts';
import { isNight } from './night.ts';
import { settings } from './settings.ts';
import { Tiles } from './Tiles.tsx';
import { wallWords } from './words.ts';
import { YardStrip } from './YardStrip.tsx';

/** One array, so that a wall without a map draws nothing anew. */
const noMap: readonly MapPlace[] = [];

/** The whole wall: the yard's strip over the piles' tiles, loud when it is not live, dark at night. */
export function Wall() {
  useEffect(startWall, []);
  const drift = useDrift();
  const view = wall.value;
  useNightFace();
  if (link.value === 'ended')
    return <Notice title={wallWords.notSignedIn} text={wallWords.notSignedInHint} />;
  if (view === null) return <Notice title={words.product} text={trouble.value ?? words.fetching} />;
  const lost = isLost() || trouble.value !== null;
  return (
    <div class={`wall ${lost ? 'not-live' : ''}`} style={drift}>
      {lost && <NotLive why={trouble.value} />}
      <YardStrip view={view} lost={lost} />
      <Tiles piles={view.piles} map={view.yard.map ?? noMap} />
    </div>
  );
}

/** The whole page goes dark, also the margin the picture wanders in. */
function useNightFace(): void {
  const night = isNight(settings.value, hourOfDay(slowNowMs.value));
  useEffect(() => {
    document.documentElement.classList.toggle('night', night);
  }, [night]);
}

/** By this device's clock: it must go on when the link, and with it the yard's clock, stands. */
function useDrift() {
  const [{ x, y }, move] = useState(() => driftAt(Date.now()));
  useEffect(() => {
    const timer = setInterval(() => move(driftAt(Date.now())), 60_000);
    return () => clearInterval(timer);
  }, []);
  return { transform: `translate(${x}px, ${y}px)` };
}

function Notice({ title, text }: { readonly title: string; readonly text: string }) {
  return (
    <main class="notice">
      <h1>{title}</h1>
      <p>{text}</p>
      <p>
        <a href="/">{words.signIn}</a>
      </p>
    </main>
  );
}
