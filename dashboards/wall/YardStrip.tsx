import { useRef } from 'preact/hooks';
import type { WallView } from '../../shared/api/types.ts';
import { age, clockTime, day, temperature } from '../common/format.ts';
import { link, serverNowMs, slowNowMs } from '../common/live.ts';
import { words } from '../common/words.ts';
import { ScreenSettings } from './ScreenSettings.tsx';
import { wallWords } from './words.ts';

interface YardStripProps {
  readonly view: WallView;
  readonly lost: boolean;
}

/** The yard in one line: is anybody wanted, what is the weather, what time is it, is this live. */
export function YardStrip({ view, lost }: YardStripProps) {
  const { name } = view.yard;
  return (
    <header class="strip">
      <h1>{name}</h1>
      <Wanted view={view} lost={lost} />
      {view.yardAlarms[0] && <p class="unseen">{view.yardAlarms[0].name}</p>}
      <Weather view={view} />
      <Clock lost={lost} />
      <ScreenSettings />
    </header>
  );
}

/** How many alarms wait for somebody. A wall that is not live does not know whether there are none. */
function Wanted({ view, lost }: YardStripProps) {
  const unseen = view.unacknowledgedCount;
  if (unseen > 0) return <p class="unseen">{wallWords.notSeenYet(unseen)}</p>;
  if (lost) return null;
  const standing = view.yardAlarms.length > 0 || view.piles.some(({ alarms }) => alarms.length > 0);
  return <p class="calm">{standing ? wallWords.allSeen : wallWords.nothingStanding}</p>;
}

function Weather({ view }: { readonly view: WallView }) {
  const { air, rain } = view.yard;
  return (
    <p class="weather">
      {air && (
        <span>
          {words.airIs(temperature(air.celsius))}{' '}
          <span class="small">{age(slowNowMs.value - air.timeMs)}</span>
        </span>
      )}
      {rain && (
        <span>
          {wallWords.rainIs(rain.millimetres.toFixed(1))} <span class="small">{wallWords.lastDay}</span>
        </span>
      )}
    </p>
  );
}

/** Stands still from the moment the wall is lost, whatever still ticks: a clock that runs looks as if all were well. */
function Clock({ lost }: { readonly lost: boolean }) {
  const shown = useRef(0);
  if (!lost || shown.current === 0) shown.current = serverNowMs.value;
  const now = shown.current;
  return (
    <p class="clock">
      {link.value === 'live' && !lost && <span class="live-word">{words.live}</span>}
      <time dateTime={new Date(now).toISOString()}>
        <span class="small">{day(now)}</span> {clockTime(now)}
      </time>
    </p>
  );
}
