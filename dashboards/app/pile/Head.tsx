import type { PilePage } from '../../../shared/api/types.ts';
import { Flag } from '../../common/Flag.tsx';
import { age, duration, percent, temperature, trend } from '../../common/format.ts';
import { slowNowMs } from '../../common/live.ts';
import { alarmStateWords, conditionWords, methodWords, stageWords, words } from '../../common/words.ts';
import { text } from './words.ts';

/** The pile in a glance: how hot and where it is going, and the one thing most wrong with it. */
export function Head({ page }: { readonly page: PilePage }) {
  const { pile, status, alarms } = page;
  const now = slowNowMs.value;
  const going = trend(status?.trendCelsiusPerHour ?? null);
  const worst = alarms[0];
  return (
    <section class="pile-head">
      <h1>{pile.name}</h1>
      <p class="hint">
        {text.standsSince(pile.place, methodWords[pile.method], duration(now - pile.startedMs))}
      </p>
      <p class="big-core">
        {status?.coreCelsius != null ? temperature(status.coreCelsius) : words.noReading}
        {going && (
          <span class="going">
            {' '}
            <Arrow turn={going.turn} /> {words.going(going.word, going.detail)}
          </span>
        )}
      </p>
      {status?.coreTimeMs != null && <p class="hint">{text.hottestCore(age(now - status.coreTimeMs))}</p>}
      {worst ? (
        <p class={`row-call wants-${worst.priority}`}>
          <Flag priority={worst.priority} state={worst.state} />{' '}
          <span>
            <strong>{conditionWords[worst.condition]}</strong>, {alarmStateWords[worst.state]}
            {alarms.length > 1 && ` ${text.moreAlarms(alarms.length - 1)}`}
          </span>
        </p>
      ) : (
        <p class="row-call">{text.nothing}</p>
      )}
      <Facts page={page} />
    </section>
  );
}

function Facts({ page }: { readonly page: PilePage }) {
  const { status, air } = page;
  return (
    <ul class="facts-list">
      {status?.stage && <li>{stageWords[status.stage]}</li>}
      {air && <li>{words.airIs(temperature(air.celsius))}</li>}
      {status?.moistureFraction != null && <li>{words.moistureIs(percent(status.moistureFraction))}</li>}
      {status?.peakCelsius != null && <li>{text.highest(temperature(status.peakCelsius))}</li>}
      {status && status.hoursAbove55 > 0 && (
        <li>{text.hoursHot(Math.round(status.hoursAbove55), temperature(55, 0))}</li>
      )}
      {status?.sanitisationProgress != null && (
        <li>{words.sanitisationIs(percent(status.sanitisationProgress))}</li>
      )}
    </ul>
  );
}

function Arrow({ turn }: { readonly turn: -1 | 0 | 1 }) {
  const path = { '-1': 'M4 5 L12 15 L20 5', '0': 'M3 10 H21', '1': 'M4 15 L12 5 L20 15' }[turn];
  return (
    <svg class="arrow" viewBox="0 0 24 20" width="24" height="20" aria-hidden="true">
      <path d={path} fill="none" stroke="currentColor" stroke-width="3.5" />
    </svg>
  );
}
