import { useMemo } from 'preact/hooks';
import type { AlarmReportView } from '../../../../shared/api/types.ts';
import { display, tableTime } from '../../../common/format.ts';
import { serverNowMs } from '../../../common/live.ts';
import { words } from '../../../common/words.ts';
import { linkTo, route } from '../../route.ts';
import { session } from '../../session.ts';
import { useFetched } from '../../useFetched.ts';
import { askedMonth, type Month, monthAfter, monthOf, spanOf } from './months.ts';
import './report.css';
import { ReportSheet } from './ReportSheet.tsx';
import { text } from './words.ts';

/** `#/manage/report`: the last full month; `#/manage/report/2026-10`: that one. */
export function Report() {
  const { timeZone } = display.value;
  const month = askedMonth(route.value[2], timeZone, serverNowMs.peek());
  return <MonthReport key={month} month={month} timeZone={timeZone} />;
}

function MonthReport({ month, timeZone }: { readonly month: Month; readonly timeZone: string }) {
  // Asked once: a report that grew while it is read could not be printed.
  const { fromMs, toMs } = useMemo(() => spanOf(timeZone, month, serverNowMs.peek()), [timeZone, month]);
  const isSoFar = month === monthOf(timeZone, toMs);
  const { data, failure } = useFetched<AlarmReportView>(
    `/api/report?fromMs=${fromMs}&toMs=${toMs}`,
    () => false,
    month,
  );
  return (
    <div class="report">
      <p class="no-print">{text.lead}</p>
      <nav class="report-months no-print" aria-label={text.month}>
        <a href={linkTo('manage', 'report', monthAfter(month, -1))}>{text.earlier}</a>
        {month < monthOf(timeZone, serverNowMs.peek()) && (
          <a href={linkTo('manage', 'report', monthAfter(month, 1))}>{text.later}</a>
        )}
        <button type="button" class="quiet" disabled={data === null} onClick={() => print()}>
          {text.print}
        </button>
      </nav>
      {data === null ? (
        <p>{failure ?? words.fetching}</p>
      ) : (
        <article class="report-sheet">
          <h2>
            {session.value?.yard?.name}, {monthName(month)}
          </h2>
          <p class="hint">
            {isSoFar && `${text.upTo} ${tableTime(data.toMs)}. `}
            {text.made} {tableTime(data.nowMs)}, {text.zone} ({data.timeZone}).
          </p>
          <ReportSheet report={data} />
        </article>
      )}
    </div>
  );
}

/** `October 2026` */
function monthName(month: Month): string {
  const format = new Intl.DateTimeFormat('en-GB', { timeZone: 'UTC', month: 'long', year: 'numeric' });
  return format.format(Date.parse(`${month}-01T12:00:00Z`));
}
