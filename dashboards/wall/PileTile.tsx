import type { WallPile } from '../../shared/api/types.ts';
import { Flag } from '../common/Flag.tsx';
import { age, display, duration, percent, temperatureNumber, trend } from '../common/format.ts';
import { oldAfterMs } from '../common/old.ts';
import { SectionPicture } from '../common/SectionPicture.tsx';
import { Spark } from '../common/Spark.tsx';
import { alarmStateShort, conditionWords, methodWords, stageWords, words } from '../common/words.ts';

interface PileTileProps {
  readonly pile: WallPile;
  readonly nowMs: number;
}

/** One pile on the wall: what it is, how hot, where that is going, how sure we are, and who is wanted. */
export function PileTile({ pile, nowMs }: PileTileProps) {
  const worst = pile.alarms[0];
  const hidden = worst !== undefined && ['shelved', 'suppressed', 'out-of-service'].includes(worst.state);
  return (
    <li class={`tile ${worst && !hidden ? `wants wants-${worst.priority}` : ''}`}>
      <a class="tile-inner" href={`/#/piles/${encodeURIComponent(pile.id)}`}>
        <header>
          <h2>{pile.name}</h2>
          <p class="place">
            {pile.place}, {methodWords[pile.method]}
          </p>
        </header>
        <SectionPicture id={pile.id} method={pile.method} points={pile.points} nowMs={nowMs} />
        <Core pile={pile} nowMs={nowMs} />
        <Facts pile={pile} />
        <div class="course">{pile.spark.length > 0 && <Spark hours={pile.spark} nowMs={nowMs} />}</div>
        {worst && (
          <p class="call">
            <Flag priority={worst.priority} state={worst.state} />
            <span class="call-what">{conditionWords[worst.condition]}</span>
            <span class="call-state">
              {alarmStateShort[worst.state]}
              {worst.sinceMs !== null && `, ${duration(nowMs - worst.sinceMs)}`}
              {pile.alarms.length > 1 && `, +${pile.alarms.length - 1}`}
            </span>
          </p>
        )}
      </a>
    </li>
  );
}

function Core({ pile, nowMs }: PileTileProps) {
  if (pile.core === null) {
    return (
      <div class="core core-none">
        <strong>{pile.points.length === 0 ? words.noProbe : words.noReading}</strong>
      </div>
    );
  }
  const ageMs = nowMs - pile.core.timeMs;
  const old = ageMs > oldAfterMs;
  const going = old ? null : trend(pile.trendCelsiusPerHour);
  return (
    <div class={`core ${old ? 'core-old' : ''}`}>
      <p class="core-value">
        <strong>{temperatureNumber(pile.core.celsius)}</strong>
        <span class="unit">{display.value.unit}</span>
      </p>
      {going && (
        <p class="going">
          <Arrow turn={going.turn} /> {going.word} {going.detail}
        </p>
      )}
      <p class="age">{old ? `${words.noReading} for ${duration(ageMs)}` : age(ageMs)}</p>
    </div>
  );
}

function Arrow({ turn }: { readonly turn: -1 | 0 | 1 }) {
  const path = { 1: 'M2 12 L7 3 L12 12', 0: 'M1 7.5 H13', '-1': 'M2 3 L7 12 L12 3' }[turn];
  return (
    <svg class="arrow" viewBox="0 0 14 15" aria-hidden="true">
      <path
        d={path}
        fill="none"
        stroke="currentColor"
        stroke-width="2.6"
        stroke-linecap="round"
        stroke-linejoin="round"
      />
    </svg>
  );
}

function Facts({ pile }: { readonly pile: WallPile }) {
  const progress = pile.sanitisationProgress;
  return (
    <p class="facts">
      {pile.stage && <span class="stage">{stageWords[pile.stage]}</span>}
      {pile.moisture && (
        <span>
          {percent(pile.moisture.fraction)} {words.moisture}
        </span>
      )}
      {progress !== null && (
        <span>
          {words.sanitisation} {percent(progress)}
          <span class="bar" aria-hidden="true">
            <span style={{ width: `${Math.min(100, progress * 100)}%` }} />
          </span>
        </span>
      )}
    </p>
  );
}
