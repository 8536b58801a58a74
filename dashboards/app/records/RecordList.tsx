import { useEffect, useState } from 'preact/hooks';
import type { PileView, RecordStanding } from '../../../shared/api/types.ts';
import { api } from '../../common/api.ts';
import { fullDay, percent } from '../../common/format.ts';
import { methodWords } from '../../common/words.ts';
import { linkTo } from '../route.ts';
import { failureText, session } from '../session.ts';
import './records.css';
import { csvOf, download, fileName } from './csv.ts';
import { recordWords } from './words.ts';

const { csv } = recordWords;

/** Each is read over its whole life: a few at a time, shown as they come. */
const atOnce = 10;

/** Every pile of the yard with where its heat record stands. */
export function RecordList() {
  const { piles, standings, failure } = useStandings();
  if (piles === null) return <main class="page">{failure ?? recordWords.fetching}</main>;
  const open = piles.filter(({ endedMs }) => endedMs === null);
  const ended = piles.filter(({ endedMs }) => endedMs !== null);
  return (
    <main class="page record">
      <h1>{recordWords.title}</h1>
      <p class="hint">
        {session.value?.yard?.name}. {recordWords.listHint}
      </p>
      {failure && <p class="wrong">{failure}</p>}
      {standings.size < piles.length && failure === null && (
        <p role="status">{recordWords.reading(standings.size, piles.length)}</p>
      )}
      <p class="buttons no-print">
        <button type="button" onClick={() => print()}>
          {recordWords.printList}
        </button>
        <button
          type="button"
          class="quiet"
          onClick={() =>
            download(
              `${fileName(session.value?.yard?.name ?? '')}-${csv.records}.csv`,
              listCsv(piles, standings),
            )
          }
        >
          {recordWords.csvList}
        </button>
      </p>
      {piles.length === 0 && <p>{recordWords.noPiles}</p>}
      <Piles title={recordWords.openPiles} piles={open} standings={standings} />
      <Piles title={recordWords.endedPiles} piles={ended} standings={standings} />
    </main>
  );
}

type Standings = ReadonlyMap<string, RecordStanding>;

function useStandings() {
  const [piles, setPiles] = useState<readonly PileView[] | null>(null);
  const [standings, setStandings] = useState<Standings>(new Map());
  const [failure, setFailure] = useState<string | null>(null);
  useEffect(() => {
    let wanted = true;
    const read = async () => {
      const all = await api.get<readonly PileView[]>('/api/piles');
      const sorted = [...all].sort((one, other) => other.startedMs - one.startedMs);
      if (wanted) setPiles(sorted);
      for (let first = 0; wanted && first < sorted.length; first += atOnce) {
        const ids = sorted.slice(first, first + atOnce).map(({ id }) => id);
        const some = await api.get<readonly RecordStanding[]>(
          `/api/records?piles=${encodeURIComponent(ids.join())}`,
        );
        if (wanted)
          setStandings((before) => new Map([...before, ...some.map((one) => [one.pile.id, one] as const)]));
      }
    };
    read().catch((error) => setFailure(failureText(error)));
    return () => {
      wanted = false;
    };
  }, []);
  return { piles, standings, failure };
}

interface PilesProps {
  readonly title: string;
  readonly piles: readonly PileView[];
  readonly standings: Standings;
}

function Piles({ title, piles, standings }: PilesProps) {
  if (piles.length === 0) return null;
  return (
    <section aria-label={title}>
      <h2>{title}</h2>
      <ul class="record-list">
        {piles.map((pile) => (
          <Row key={pile.id} pile={pile} record={standings.get(pile.id) ?? null} />
        ))}
      </ul>
    </section>
  );
}

function Row({ pile, record }: { readonly pile: PileView; readonly record: RecordStanding | null }) {
  const standing = record?.standing ?? null;
  return (
    <li class={standing === null ? '' : `is-${standing.outcome}`}>
      <a href={linkTo('records', pile.id)}>
        <strong>{pile.name}</strong>
      </a>
      <span class="hint">
        {pile.place}, {methodWords[pile.method]}, {fullDay(pile.startedMs)}
        {pile.endedMs !== null && ` - ${fullDay(pile.endedMs)}`}
      </span>
      {record === null && <span class="hint">...</span>}
      {record !== null && standing === null && <span class="hint">{recordWords.nothingAsked}</span>}
      {standing !== null && (
        <>
          <span class="record-share">
            <span class="share-bar" aria-hidden="true">
              <span style={{ width: `${standing.progress * 100}%` }} />
            </span>{' '}
            {percent(standing.progress)}
          </span>
          <span>
            <strong>{recordWords.short[standing.outcome]}</strong> {standing.title}
            {standing.satisfiedAtMs !== null && `, ${fullDay(standing.satisfiedAtMs)}`}
            {standing.missing[0] && <span class="hint"> {standing.missing[0]}</span>}
          </span>
        </>
      )}
    </li>
  );
}

function listCsv(piles: readonly PileView[], standings: Standings): string {
  return csvOf([
    [
      ...[csv.pile, csv.place, csv.kind, csv.built, csv.ended],
      ...[csv.rule, csv.record, csv.share, csv.completeOn, csv.missing],
    ],
    ...piles.map((pile) => {
      const standing = standings.get(pile.id)?.standing ?? null;
      return [
        ...[pile.name, pile.place, methodWords[pile.method], fullDay(pile.startedMs)],
        pile.endedMs === null ? '' : fullDay(pile.endedMs),
        ...(standing === null
          ? ['', recordWords.nothingAsked, null, '', '']
          : [
              ...[standing.title, recordWords.short[standing.outcome], Number(standing.progress.toFixed(2))],
              standing.satisfiedAtMs === null ? '' : fullDay(standing.satisfiedAtMs),
              standing.missing.join(' '),
            ]),
      ];
    }),
  ]);
}
