import { Pick } from '../../planner/Choice.tsx';
import { linkTo } from '../../route.ts';
import type { PartProps } from './Duty.tsx';
import { Clock, OnOff } from './fields.tsx';
import { text, weekdayLong } from './words.ts';

/** Texts that come by the calendar: the week, the month, and that all is well. */
export function Regular({ plan, onChange }: PartProps) {
  const { digest, allWell, monthReport } = plan;
  return (
    <section aria-labelledby="regular">
      <h2 id="regular">{text.regular}</h2>
      <div class="duty-columns">
        <div>
          <OnOff
            label={text.allWell}
            hint={text.allWellHint}
            isOn={allWell !== null}
            onChange={(isOn) => onChange({ allWell: isOn ? { at: '08:00' } : null })}
          />
          {allWell !== null && (
            <Clock label={text.at} value={allWell.at} onChange={(at) => onChange({ allWell: { at } })} />
          )}
        </div>
        <div>
          <OnOff
            label={text.digest}
            isOn={digest !== null}
            onChange={(isOn) => onChange({ digest: isOn ? { weekday: 1, at: '08:00' } : null })}
          />
          {digest !== null && (
            <div class="side-by-side">
              <Pick
                label={text.weekday}
                value={String(digest.weekday)}
                choices={weekdayLong.map((name, index) => [String(index + 1), name] as const)}
                onChange={(weekday) => onChange({ digest: { ...digest, weekday: Number(weekday) } })}
              />
              <Clock
                label={text.at}
                value={digest.at}
                onChange={(at) => onChange({ digest: { ...digest, at } })}
              />
            </div>
          )}
        </div>
        <div>
          <OnOff
            label={text.monthReport}
            hint={text.monthReportHint}
            isOn={monthReport !== null}
            onChange={(isOn) => onChange({ monthReport: isOn ? { at: '08:00' } : null })}
          />
          {monthReport !== null && (
            <Clock
              label={text.at}
              value={monthReport.at}
              onChange={(at) => onChange({ monthReport: { at } })}
            />
          )}
          <p>
            <a href={linkTo('manage', 'report')}>{text.openReport}</a>
          </p>
        </div>
      </div>
    </section>
  );
}
