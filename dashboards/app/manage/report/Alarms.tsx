import type { AlarmReportView } from '../../../../shared/api/types.ts';
import { dayAndTime } from '../../../common/format.ts';
import { linkTo } from '../../route.ts';
import { filled, text } from './words.ts';

interface SheetProps {
  readonly report: AlarmReportView;
}

/** The alarms that rang most: changing a few of these changes the month. */
export function Worst({ report: { worst } }: SheetProps) {
  return (
    <section aria-labelledby="report-worst">
      <h3 id="report-worst">{text.worst}</h3>
      <table class="report-table">
        <thead>
          <tr>
            <th scope="col">{text.alarm}</th>
            <th scope="col">{text.texts}</th>
            <th scope="col">{text.times}</th>
            <th scope="col">{text.hours}</th>
          </tr>
        </thead>
        <tbody>
          {worst.map(({ alarmId, subject, name, texts, activations, hoursStanding }) => (
            <tr key={alarmId}>
              <th scope="row">
                {subject.name}: {name} <Tune subject={subject} />
              </th>
              <td data-label={text.texts}>{texts}</td>
              <td data-label={text.times}>{activations}</td>
              <td data-label={text.hours}>{hoursStanding.toFixed(hoursStanding < 10 ? 1 : 0)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

/** Alarms held because they came and went too fast. */
export function Chattering({ report: { chattering } }: SheetProps) {
  return (
    <section aria-labelledby="report-chattering">
      <h3 id="report-chattering">{text.chattering}</h3>
      {chattering.length === 0 && <p>{text.noChattering}</p>}
      {chattering.length > 0 && (
        <>
          <p class="hint">{text.chatteringHint}</p>
          <ul>
            {chattering.map(({ alarmId, subject, name, chattered }) => (
              <li key={alarmId}>
                {subject.name}: {name}, {filled(text.held, { count: chattered })} <Tune subject={subject} />
              </li>
            ))}
          </ul>
        </>
      )}
    </section>
  );
}

/** Alarms that stand longer than a day now. */
export function Stale({ report: { staleNow, staleInSpan } }: SheetProps) {
  return (
    <section aria-labelledby="report-stale">
      <h3 id="report-stale">{text.stale}</h3>
      {staleNow.length === 0 ? <p>{text.noStale}</p> : <p class="hint">{text.staleHint}</p>}
      <ul>
        {staleNow.map(({ id, subject, name, activeSinceMs }) => (
          <li key={id}>
            {subject.name}: {name}
            {activeSinceMs !== null && `, ${text.since} ${dayAndTime(activeSinceMs)}`}{' '}
            {subject.kind === 'pile' && (
              <a class="no-print" href={linkTo('piles', subject.id)}>
                {text.openPile}
              </a>
            )}
          </li>
        ))}
      </ul>
      {staleInSpan > 0 && <p>{filled(text.staleInSpan, { count: staleInSpan })}</p>}
    </section>
  );
}

/** Only a pile has limits to try. */
function Tune({ subject }: { readonly subject: AlarmReportView['worst'][number]['subject'] }) {
  if (subject.kind !== 'pile') return null;
  return (
    <a class="no-print" href={linkTo('piles', subject.id, 'limits')}>
      {text.tune}
    </a>
  );
}
