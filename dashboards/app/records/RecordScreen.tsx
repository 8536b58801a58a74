import { useEffect, useState } from 'preact/hooks';
import type { HeatRecordResult, HeatRecordView } from '../../../shared/api/types.ts';
import { api } from '../../common/api.ts';
import { day, fullDay, tableTime } from '../../common/format.ts';
import { methodWords } from '../../common/words.ts';
import { goTo, linkTo } from '../route.ts';
import { failureText, mayAct, session } from '../session.ts';
import { useFetched } from '../useFetched.ts';
import { download, fileName } from './csv.ts';
import { Days, DoesNotSay, Gaps, ProbesTable, Story, Stretches } from './Evidence.tsx';
import { daysCsv, hoursCsv } from './recordCsv.ts';
import { recordDays } from './recordDays.ts';
import './records.css';
import { Verdict } from './Verdict.tsx';
import { recordWords } from './words.ts';

/** One pile's heat record as a document: for the screen, for paper, for a table program. */
export function RecordScreen({
  pileId,
  ruleId,
}: {
  readonly pileId: string;
  readonly ruleId: string | null;
}) {
  const { data, failure, refetch } = useFetched<HeatRecordView>(
    `/api/piles/${encodeURIComponent(pileId)}/record`,
    // A record is of days: it need not be read again at every reading.
    () => false,
  );
  if (data === null) return <main class="page">{failure ?? recordWords.fetching}</main>;
  const wanted = ruleId ?? data.chosenRuleId;
  const result = data.results.find((one) => one.ruleId === wanted) ?? data.results[0];
  return (
    <main class="page record">
      <p class="way-back no-print">
        <a href={linkTo('records')}>{recordWords.backToAll}</a>{' '}
        <a href={linkTo('piles', pileId)}>{recordWords.toPile}</a>
      </p>
      {result === undefined ? (
        <>
          <h1>{recordWords.heatRecordOf(data.pile.name)}</h1>
          <p class="note">{recordWords.noRule}</p>
        </>
      ) : (
        <Document record={data} result={result} refetch={refetch} />
      )}
    </main>
  );
}

interface DocumentProps {
  readonly record: HeatRecordView;
  readonly result: HeatRecordResult;
  readonly refetch: () => Promise<void>;
}

function Document({ record, result, refetch }: DocumentProps) {
  const days = recordDays(record, result, day);
  useTitle(recordWords.documentTitle(record.pile.name, fullDay(record.nowMs)));
  const name = fileName(record.pile.name);
  return (
    <>
      <div class="no-print record-tools">
        <WhichRule record={record} result={result} refetch={refetch} />
        <p class="buttons">
          <button type="button" onClick={() => print()}>
            {recordWords.print}
          </button>
          <button
            type="button"
            class="quiet"
            onClick={() =>
              download(`${name}-${recordWords.csv.days}.csv`, daysCsv(record, result, days, fullDay))
            }
          >
            {recordWords.csvDays}
          </button>
          <button
            type="button"
            class="quiet"
            onClick={() =>
              download(`${name}-${recordWords.csv.hours}.csv`, hoursCsv(record, result, tableTime))
            }
          >
            {recordWords.csvHours}
          </button>
        </p>
      </div>
      <article class="record-sheet">
        <h1>{recordWords.heatRecordOf(record.pile.name)}</h1>
        <Facts record={record} result={result} />
        <Verdict result={result} />
        <Stretches result={result} days={days} />
        <Gaps record={record} />
        <ProbesTable record={record} result={result} />
        <DoesNotSay result={result} />
        <Story record={record} />
        <Days record={record} days={days} />
        <div class="signing">
          <p>{recordWords.kept}</p>
          <p>{recordWords.looked}</p>
          <p>{recordWords.dateSigned}</p>
        </div>
      </article>
    </>
  );
}

/** The page's title is what a saved PDF is called. */
function useTitle(title: string): void {
  useEffect(() => {
    const before = document.title;
    document.title = title;
    return () => {
      document.title = before;
    };
  }, [title]);
}

function Facts({ record, result }: Omit<DocumentProps, 'refetch'>) {
  const { pile, yard } = record;
  const facts: readonly (readonly [string, string])[] = [
    [yard.name, pile.place],
    [recordWords.method, methodWords[pile.method]],
    [recordWords.built, tableTime(pile.startedMs)],
    [recordWords.ended, pile.endedMs === null ? recordWords.stillOpen : tableTime(pile.endedMs)],
    [recordWords.readUpTo, tableTime(record.nowMs)],
    [
      recordWords.made,
      recordWords.madeBy(tableTime(record.madeMs), session.value?.person?.name ?? '', yard.timeZone),
    ],
    [recordWords.rule, result.title],
    [recordWords.source, result.source],
    [recordWords.figures, result.statusWords],
  ];
  return (
    <dl class="record-facts">
      {facts.map(([term, value]) => (
        <div key={term}>
          <dt>{term}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
  );
}

/** Which rule the readings are held against; a keeper makes it the yard's. */
function WhichRule({ record, result, refetch }: DocumentProps) {
  const [said, setSaid] = useState<string | null>(null);
  const { pile, results, chosenRuleId } = record;
  const choose = () =>
    api
      .put('/api/records/rule', { method: pile.method, ruleId: result.ruleId })
      .then(refetch)
      .then(
        () => setSaid(recordWords.used),
        (error) => setSaid(failureText(error)),
      );
  return (
    <>
      <div class="field">
        <label for="which-rule">{recordWords.otherRules}</label>
        <select
          id="which-rule"
          value={result.ruleId}
          onChange={(event) => goTo('records', pile.id, event.currentTarget.value)}
        >
          {results.map(({ ruleId, title, outcome }) => (
            <option key={ruleId} value={ruleId} selected={ruleId === result.ruleId}>
              {(ruleId === chosenRuleId ? recordWords.yardsRuleStands : recordWords.ruleStands)(
                title,
                recordWords.short[outcome],
              )}
            </option>
          ))}
        </select>
      </div>
      {mayAct('keeper') && result.ruleId !== chosenRuleId && (
        <p class="buttons">
          <button type="button" class="quiet" onClick={() => void choose()}>
            {recordWords.useRule}
          </button>
        </p>
      )}
      {said && <p role="status">{said}</p>}
    </>
  );
}
