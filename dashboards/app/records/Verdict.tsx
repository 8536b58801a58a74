import type { HeatRecordResult } from '../../../shared/api/types.ts';
import { dayAndTime, display, temperature } from '../../common/format.ts';
import { WideTable } from '../planner/WideTable.tsx';
import { recordWords } from './words.ts';

/** What the record comes to by this rule, what is missing, and how far each thing asked has come. */
export function Verdict({ result }: { readonly result: HeatRecordResult }) {
  const { outcome, title, satisfiedAtMs, coreRecordAtMs, missing, guarded } = result;
  return (
    <section class={`verdict-box is-${outcome}`} aria-labelledby="verdict-title">
      <h2 id="verdict-title">{recordWords.outcomes[outcome](title)}</h2>
      {satisfiedAtMs !== null && <p>{recordWords.metOn(dayAndTime(satisfiedAtMs))}</p>}
      {coreRecordAtMs !== null && <p>{recordWords.coreMetOn(dayAndTime(coreRecordAtMs))}</p>}
      {missing.length > 0 && (
        <>
          <p>
            <strong>{recordWords.missing}</strong>
          </p>
          <ul>
            {missing.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </>
      )}
      <Parts result={result} />
      {outcome !== 'not-yet' && (
        <p>
          {(guarded.satisfiedAtMs === null ? recordWords.guardedNot : recordWords.guardedMet)(
            toleranceWords(),
          )}
        </p>
      )}
    </section>
  );
}

function Parts({ result }: { readonly result: HeatRecordResult }) {
  const number = (name: HeatRecordResult['parts'][number]['name'], value: number) =>
    name === 'average' ? temperature(value) : String(Number(value.toFixed(1)));
  return (
    <WideTable label={recordWords.asked}>
      <thead>
        <tr>
          <th scope="col">{recordWords.asked}</th>
          <th scope="col">{recordWords.have}</th>
          <th scope="col">{recordWords.need}</th>
          <td />
        </tr>
      </thead>
      <tbody>
        {result.parts.map(({ name, have, need, enough }) => (
          <tr key={name}>
            <th scope="row">{recordWords.parts[name]}</th>
            <td>{number(name, have)}</td>
            <td>{number(name, need)}</td>
            <td>{enough ? recordWords.enough : recordWords.notEnough}</td>
          </tr>
        ))}
      </tbody>
    </WideTable>
  );
}

/** The probe's tolerance is half a degree Celsius; said in the yard's unit. */
const toleranceWords = (): string => (display.value.unit === 'F' ? '0.9 F' : '0.5 C');
