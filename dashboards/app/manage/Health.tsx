import type { ProbeHealthView } from '../../../shared/api/types.ts';
import { age, day, duration, percent } from '../../common/format.ts';
import { serverNowMs } from '../../common/live.ts';
import { locale, measures, words } from '../../common/words.ts';
import { linkTo } from '../route.ts';
import { useFetched } from '../useFetched.ts';
import { nextWords, text } from './words.ts';

/** Worst first: what wants somebody stands on top. */
const urgency: readonly ProbeHealthView['next'][] = [
  'alarm',
  'wait-first-message',
  'place',
  'calibrate',
  'nothing',
  'revoked',
];
const collator = new Intl.Collator(locale, { numeric: true });

/** How every probe is, and what to do next about each. */
export function Health() {
  const { data, failure } = useFetched<ProbeHealthView[]>(
    '/api/probe-health',
    ({ kind }) => kind === 'probe' || kind === 'alarm' || kind === 'pile',
  );
  if (data === null) return <p>{failure ?? words.fetching}</p>;
  const sorted = [...data].sort(
    (one, other) =>
      urgency.indexOf(one.next) - urgency.indexOf(other.next) || collator.compare(one.label, other.label),
  );
  return (
    <>
      <p>{text.healthLead}</p>
      {sorted.length === 0 && (
        <p class="note">
          {text.noProbes} <a href={linkTo('start', 'probe')}>{text.firstSteps}</a>
        </p>
      )}
      <div class="cards">
        {sorted.map((probe) => (
          <HealthCard key={probe.id} probe={probe} nowMs={serverNowMs.value} />
        ))}
      </div>
    </>
  );
}

interface HealthCardProps {
  readonly probe: ProbeHealthView;
  readonly nowMs: number;
}

function HealthCard({ probe, nowMs }: HealthCardProps) {
  return (
    <article class={`card health health-${probe.next}`}>
      <h2>{probe.label}</h2>
      {probe.alarms.map(({ condition, name }) => (
        <p key={condition} class="health-alarm">
          <svg class="health-mark" viewBox="0 0 24 24" aria-hidden="true">
            <path d="M4 3v18M4 4h15l-4 5 4 5H4" fill="currentColor" stroke="currentColor" stroke-width="2" />
          </svg>
          <strong>{name}</strong>
        </p>
      ))}
      <Next probe={probe} />
      <dl class="pairs">
        {facts(probe, nowMs).map(([term, value]) => (
          <div key={term}>
            <dt>{term}</dt>
            <dd>{value}</dd>
          </div>
        ))}
      </dl>
    </article>
  );
}

function Next({ probe }: { readonly probe: ProbeHealthView }) {
  const { next, alarms } = probe;
  const action = alarms.find(({ firstAction }) => firstAction !== null)?.firstAction;
  const where: Partial<Record<typeof next, string>> = {
    'wait-first-message': linkTo('manage', 'probes'),
    place: linkTo('start', 'channels'),
    calibrate: linkTo('start', 'ice'),
    revoked: linkTo('manage', 'probes'),
  };
  const said = next === 'alarm' ? (action ?? alarms[0]!.name) : nextWords[next];
  return (
    <p>
      <strong>{text.nextStep}</strong> {where[next] === undefined ? said : <a href={where[next]}>{said}</a>}
    </p>
  );
}

function facts(probe: ProbeHealthView, nowMs: number): readonly (readonly [string, string])[] {
  return [
    [text.standsIn, probe.piles.length === 0 ? text.nowhere : probe.piles.join(', ')],
    [text.heard, heardWords(probe, nowMs)],
    [text.battery, batteryWords(probe)],
    [text.signal, probe.signalDbm === null ? text.notSent : text.signalIs(Math.round(probe.signalDbm))],
    [text.clock, clockWords(probe.clockAheadMs)],
    [text.doubted, doubtedWords(probe)],
    [text.check, checkWords(probe, nowMs)],
  ];
}

function heardWords({ heardMs, connected }: ProbeHealthView, nowMs: number): string {
  const when = heardMs === null ? text.neverHeard : age(nowMs - heardMs);
  return connected === true ? `${when}, ${text.signedIn}` : when;
}

function batteryWords({ battery }: ProbeHealthView): string {
  if (battery === null) return text.notSent;
  return battery.unit === 'fraction' ? percent(battery.value) : measures.volts(battery.value.toFixed(2));
}

/** A probe that stores and sends later is late, not wrong; half a minute either way is the network. */
const rightWithinMs = 30_000;

function clockWords(aheadMs: number | null): string {
  if (aheadMs === null) return text.notSent;
  if (Math.abs(aheadMs) <= rightWithinMs) return text.clockRight;
  return aheadMs > 0 ? text.clockAhead(duration(aheadMs)) : text.clockLate(duration(-aheadMs));
}

function doubtedWords({ readingsLastDay, doubtedLastDay }: ProbeHealthView): string {
  if (readingsLastDay === 0) return words.noReading;
  if (doubtedLastDay === 0) return text.doubtedNone(readingsLastDay);
  const share = doubtedLastDay / readingsLastDay;
  return text.doubtedSome(share < 0.01 ? '< 1 %' : percent(share), doubtedLastDay, readingsLastDay);
}

function checkWords({ calibrationDueMs, uncalibrated }: ProbeHealthView, nowMs: number): string {
  if (calibrationDueMs === null) return uncalibrated > 0 ? text.notChecked : text.checkNone;
  return calibrationDueMs < nowMs ? text.overdue(day(calibrationDueMs)) : day(calibrationDueMs);
}
