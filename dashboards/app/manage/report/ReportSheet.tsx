import type { AlarmReportView } from '../../../../shared/api/types.ts';
import { priorityWords } from '../../../common/words.ts';
import { Chattering, Stale, Worst } from './Alarms.tsx';
import { Figures } from './Figures.tsx';
import { filled, priorityOrder, text } from './words.ts';

interface SheetProps {
  readonly report: AlarmReportView;
}

/** The report as a document: people first, alarms after. */
export function ReportSheet({ report }: SheetProps) {
  const isQuiet = report.texts === 0 && report.activations === 0;
  return (
    <>
      {isQuiet ? <p class="note">{text.quiet}</p> : <InShort report={report} />}
      <People report={report} />
      {!isQuiet && <Worst report={report} />}
      <Chattering report={report} />
      <Stale report={report} />
      <Figures report={report} />
    </>
  );
}

function InShort({ report }: SheetProps) {
  const { texts, activations, texted, acted, textsByPriority, groupedTexts, hidden } = report;
  const byPriority = priorityOrder
    .filter((one) => textsByPriority[one] > 0)
    .map((one) => `${textsByPriority[one]} ${priorityWords[one]}`);
  return (
    <section aria-labelledby="report-short">
      <h3 id="report-short">{text.short}</h3>
      <p class="report-count">{filled(text.texted, { texts, activations })}</p>
      <ul>
        <li>{texted === 0 ? text.nobodyTexted : filled(text.actedWords, { acted, texted })}</li>
        {byPriority.length > 0 && (
          <li>
            {text.priorities}: {byPriority.join(', ')}
          </li>
        )}
        {groupedTexts > 0 && <li>{filled(text.grouped, { count: groupedTexts })}</li>}
        {hidden.shelved + hidden.suppressed + hidden.outOfService > 0 && (
          <li>
            {text.hidden}: {filled(text.hiddenWords, hidden)}
          </li>
        )}
      </ul>
    </section>
  );
}

function People({ report: { people } }: SheetProps) {
  return (
    <section aria-labelledby="report-people">
      <h3 id="report-people">{text.people}</h3>
      <p class="hint">{text.peopleHint}</p>
      <table class="report-table">
        <thead>
          <tr>
            <th scope="col">{text.person}</th>
            <th scope="col">{text.texts}</th>
            <th scope="col">{text.aDay}</th>
            <th scope="col">{text.atNight}</th>
            <th scope="col">{text.busiestDay}</th>
            <th scope="col">{text.tenMinutes}</th>
          </tr>
        </thead>
        <tbody>
          {people.map(({ personId, name, texts, perDay, atNight, busiestDay, mostInTenMinutes }) => (
            <tr key={personId}>
              <th scope="row">{name}</th>
              <td data-label={text.texts}>{texts}</td>
              <td data-label={text.aDay}>{perDay.toFixed(1)}</td>
              <td data-label={text.atNight}>{atNight}</td>
              <td data-label={text.busiestDay}>
                {busiestDay === null ? text.none : `${busiestDay.day}: ${busiestDay.texts}`}
              </td>
              <td data-label={text.tenMinutes}>{mostInTenMinutes}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
