import { day as dayName, shortDay } from '../../common/format.ts';
import type { RecordDay } from './recordDays.ts';
import { recordWords } from './words.ts';

const column = 10;
const tall = 48;
const leastColumns = 21;
/** Of the name of a day, as it is written. */
const nameWidth = 24;

/** The record at a glance: a bar a day for the hours that count, a notch where it was turned, dots where nobody spoke. */
export function HeatCalendar({ days }: { readonly days: readonly RecordDay[] }) {
  // A short record is not blown up, and there is room for each name of a day.
  const width = Math.max(leastColumns, days.length) * column;
  const every = Math.max(3, Math.ceil(days.length / 9));
  return (
    <figure class="heat-calendar">
      <figcaption class="hint">{recordWords.calendar}</figcaption>
      <svg
        viewBox={`-2 -8 ${width + 4} ${tall + 24}`}
        preserveAspectRatio="xMinYMid"
        role="img"
        aria-label={said(days)}
      >
        <path class="calendar-ground" d={`M0 ${tall} H${days.length * column}`} />
        {days.map(({ startMs, counted, silent, journal }, index) => {
          const x = index * column;
          const height = (Math.min(24, counted) / 24) * tall;
          const turned = journal.some(({ kind }) => kind === 'turned');
          return (
            <g key={startMs}>
              <rect class="calendar-all" x={x + 1} y="0" width={column - 2} height={tall} />
              {height > 0 && (
                <rect class="calendar-bar" x={x + 1} y={tall - height} width={column - 2} height={height} />
              )}
              {silent > 0 && <circle class="calendar-silent" cx={x + column / 2} cy="-4" r="1.8" />}
              {turned && <path class="calendar-turned" d={`M${x + 1} ${tall} l4 6 l4 -6 Z`} />}
              {index % every === 0 && (
                <text x={Math.min(x + 1, width - nameWidth)} y={tall + 14}>
                  {shortDay(startMs)}
                </text>
              )}
            </g>
          );
        })}
      </svg>
    </figure>
  );
}

function said(days: readonly RecordDay[]): string {
  const hot = days.filter(({ counted }) => counted > 0);
  if (hot.length === 0) return recordWords.noEvidence;
  return recordWords.calendarSays(hot.length, dayName(hot[0]!.startMs), dayName(hot.at(-1)!.startMs));
}
