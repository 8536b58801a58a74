import { useEffect } from 'preact/hooks';
import type { ServiceView } from '../../../../shared/api/types.ts';
import { age, dayAndTime, duration } from '../../../common/format.ts';
import { serverNowMs } from '../../../common/live.ts';
import { locale, words } from '../../../common/words.ts';
import { useFetched } from '../../useFetched.ts';
import { stateWords, text } from './words.ts';

const everyMs = 5_000;

type Statistics = ServiceView['statistics'];
type Pair = readonly [term: string, value: string];

const number = (value: unknown): number | null => (typeof value === 'number' ? value : null);
const count = (value: unknown): string => (number(value) ?? 0).toLocaleString(locale);

/** How the program stands: what came in, and how far InfluxDB has caught up. Changes of itself, so it is asked again and again. */
export function ServiceState() {
  const { data, failure, refetch } = useFetched<ServiceView>('/api/service', () => false);
  useEffect(() => {
    const timer = setInterval(() => void refetch(), everyMs);
    return () => clearInterval(timer);
  }, []);
  if (data === null) return <p>{failure ?? words.fetching}</p>;
  const { statistics, uptimeSeconds, openScreens } = data;
  return (
    <>
      <p>{text.lead}</p>
      {failure !== null && <p class="note">{failure}</p>}
      <div class="cards">
        <Card title={text.readings} pairs={readingPairs(statistics)} note={readingNote(statistics)} />
        {'influx.state' in statistics && <Influx statistics={statistics} />}
        <Card
          title={text.program}
          pairs={[
            [text.running, duration(uptimeSeconds * 1000)],
            [text.screens, count(openScreens)],
          ]}
        />
      </div>
    </>
  );
}

function Influx({ statistics }: { readonly statistics: Statistics }) {
  const state = String(statistics['influx.state']);
  const isWell = state === 'caught-up' || state === 'catching-up';
  return (
    <Card
      title={text.influxIs(stateWords[state] ?? state)}
      kind={isWell ? 'ready' : 'broken'}
      note={String(statistics['influx.text'])}
      pairs={influxPairs(statistics)}
    />
  );
}

interface CardProps {
  readonly title: string;
  readonly pairs: readonly Pair[];
  readonly note?: string | null;
  readonly kind?: 'ready' | 'broken';
}

function Card({ title, pairs, note = null, kind }: CardProps) {
  return (
    <section class={`card ${kind === undefined ? '' : `gateway gateway-${kind}`}`}>
      <h2>{title}</h2>
      {note !== null && <p>{note}</p>}
      <dl class="pairs">
        {pairs.map(([term, value]) => (
          <div key={term}>
            <dt>{term}</dt>
            <dd>{value}</dd>
          </div>
        ))}
      </dl>
    </section>
  );
}

function readingPairs(statistics: Statistics): Pair[] {
  if (!('readingsStored' in statistics)) return [];
  const lastMs = number(statistics.lastStoredMs);
  return [
    [text.stored, count(statistics.readingsStored)],
    [text.onTheirWay, count(statistics.waiting)],
    [text.lastStored, lastMs === null ? text.none : age(serverNowMs.value - lastMs)],
  ];
}

function readingNote(statistics: Statistics): string | null {
  if (!('readingsStored' in statistics)) return text.elsewhere;
  const failed = number(statistics.failedCommitsInRow) ?? 0;
  return failed === 0 ? null : text.couldNotStore(count(statistics.storageFaults));
}

function influxPairs(statistics: Statistics): Pair[] {
  const of = (name: string) => statistics[`influx.${name}`];
  const [sinceMs, pace, left] = ['waitingSinceMs', 'readingsPerSecond', 'secondsLeft'].map((name) =>
    number(of(name)),
  );
  const refused = number(of('refused')) ?? 0;
  const waiting = count(of('waiting'));
  return [
    [text.waiting, sinceMs == null ? waiting : text.waitingSince(waiting, dayAndTime(sinceMs))],
    ...(pace == null || left == null
      ? []
      : ([[text.pace, text.paceIs(count(pace), duration(left * 1000))]] as const)),
    [text.given, count(of('written'))],
    ...(refused === 0 ? [] : ([[text.refused, text.refusedIs(count(refused))]] as const)),
    [text.space, spaceWords(of('localBytes'), of('localLimitBytes'), of('localSpace'))],
  ];
}

function spaceWords(usedBytes: unknown, limitBytes: unknown, level: unknown): string {
  const gigabytes = (bytes: unknown) => text.gigabytes(((number(bytes) ?? 0) / 1e9).toFixed(2));
  const limit = number(limitBytes);
  if (limit === null) return gigabytes(usedBytes);
  const say = level === 'full' ? text.spaceFull : level === 'low' ? text.spaceLow : text.spaceOf;
  return say(gigabytes(usedBytes), gigabytes(limit));
}
