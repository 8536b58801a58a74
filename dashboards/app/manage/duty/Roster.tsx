import type { DutyView } from '../../../../shared/api/types.ts';
import { clockOfMinute } from '../../../../shared/messages/clockMinutes.ts';
import { type DutyDay, type DutySpan, dutyDays } from '../../../../shared/messages/dutyDays.ts';
import type { DutyPlan } from '../../../../shared/messages/dutyPlan.ts';
import { display } from '../../../common/format.ts';
import { slowNowMs } from '../../../common/live.ts';
import { text, weekdayShort } from './words.ts';

const daysShown = 7;
const dayMinutes = 1440;

interface RosterProps {
  readonly plan: DutyPlan;
  readonly people: DutyView['people'];
}

/** The coming week as a roster hangs on a wall: a strip for each day, and the same in words beneath it. */
export function Roster({ plan, people }: RosterProps) {
  const nameOf = (id: string) => people.find((one) => one.id === id)?.name ?? id;
  if (plan.shifts.length === 0) return <p class="note">{text.noTurns}</p>;
  const days = dutyDays(plan, display.value.timeZone, slowNowMs.value, daysShown);
  return (
    <section aria-labelledby="next-days">
      <h2 id="next-days">{text.nextDays}</h2>
      <div class="roster-hours" aria-hidden="true">
        {[0, 6, 12, 18, 24].map((hour) => (
          <span key={hour} style={{ left: `${(hour / 24) * 100}%` }}>
            {hour}
          </span>
        ))}
      </div>
      <ol class="roster">
        {days.map((day) => (
          <Day key={day.day} day={day} people={people} nameOf={nameOf} />
        ))}
      </ol>
      {days.some(({ spans }) => spans.some(({ rounds }) => rounds.length === 0)) && (
        <p class="hint">{text.nobodyHint}</p>
      )}
    </section>
  );
}

interface DayProps {
  readonly day: DutyDay;
  readonly people: DutyView['people'];
  readonly nameOf: (id: string) => string;
}

function Day({ day, people, nameOf }: DayProps) {
  return (
    <li>
      <span class="roster-day">
        {weekdayShort[day.weekday - 1]} {Number(day.day.slice(8))}
        {day.isHoliday && <span class="hint"> {text.holiday}</span>}
      </span>
      <span class="roster-strip" aria-hidden="true">
        {day.spans.map((span) => (
          <span
            key={span.fromMinute}
            class={`turn ${turnClass(span, people)}`}
            style={{
              left: `${(span.fromMinute / dayMinutes) * 100}%`,
              width: `${((span.toMinute - span.fromMinute) / dayMinutes) * 100}%`,
            }}
          >
            {span.rounds[0]?.map(nameOf).join(', ')}
          </span>
        ))}
      </span>
      <span class="roster-words">{day.spans.map((span) => spanWords(span, nameOf)).join('; ')}</span>
    </li>
  );
}

/** Neighbours differ in tint and in the slant of their stripes; who it is stands in them. */
function turnClass({ rounds }: DutySpan, people: DutyView['people']): string {
  const first = rounds[0]?.[0];
  if (first === undefined) return 'turn-nobody';
  return `turn-${people.findIndex(({ id }) => id === first) % 4}`;
}

function spanWords({ fromMinute, toMinute, rounds }: DutySpan, nameOf: (id: string) => string): string {
  const who = rounds
    .map((round) => round.map(nameOf).join(', '))
    .reduce((first, then) => (first === '' ? then : text.afterThem(first, then)), '');
  return `${clockOfMinute(fromMinute)}\u2013${clockOfMinute(toMinute)} ${who || text.nobody}`;
}
