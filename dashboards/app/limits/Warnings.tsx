import type { ReplayOutcome } from '../../../shared/rules/replayJob.ts';
import type { Warning } from '../../../shared/rules/replayReport.ts';
import { dayAndTime, duration } from '../../common/format.ts';
import { conditionWords } from '../../common/words.ts';
import { WideTable } from '../planner/WideTable.tsx';
import { limitWords } from './words.ts';

/** Before each trouble that plain rules find: how long before each set of limits spoke, and what that wins or loses. */
export function Warnings({ outcome }: { readonly outcome: ReplayOutcome }) {
  const { current, candidate } = outcome;
  if (current.warnings.length === 0) return <p class="hint">{limitWords.noTrouble}</p>;
  return (
    <WideTable label={limitWords.warning}>
      <caption>{limitWords.warning}</caption>
      <thead>
        <tr>
          <th scope="col">{limitWords.trouble}</th>
          <th scope="col">{limitWords.inForce}</th>
          {candidate !== null && <th scope="col">{limitWords.onTrial}</th>}
          {candidate !== null && <th scope="col">{limitWords.wonOrLost}</th>}
        </tr>
      </thead>
      <tbody>
        {current.warnings.map((now, index) => {
          const then = candidate?.warnings[index] ?? null;
          return (
            <tr key={`${now.trouble.name} ${now.trouble.startMs}`}>
              <th scope="row">
                {now.trouble.name}
                <br />
                <span class="hint">{dayAndTime(now.trouble.startMs)}</span>
              </th>
              <td>{said(now)}</td>
              {then !== null && <td>{said(then)}</td>}
              {then !== null && <td>{difference(now, then)}</td>}
            </tr>
          );
        })}
      </tbody>
    </WideTable>
  );
}

function said({ minutesBefore, by }: Warning): string {
  if (minutesBefore === null || by === null) return limitWords.never;
  const long = duration(Math.abs(minutesBefore) * 60_000);
  return `${minutesBefore >= 0 ? limitWords.before(long) : limitWords.after(long)}, ${conditionWords[by]}`;
}

function difference(now: Warning, then: Warning): string {
  if (then.minutesBefore === null)
    return now.minutesBefore === null ? limitWords.same : limitWords.missedShort;
  if (now.minutesBefore === null) return limitWords.caughtShort;
  const minutes = Math.round(then.minutesBefore - now.minutesBefore);
  if (minutes === 0) return limitWords.same;
  const long = duration(Math.abs(minutes) * 60_000);
  return minutes > 0 ? limitWords.wonShort(long) : limitWords.lostShort(long);
}
