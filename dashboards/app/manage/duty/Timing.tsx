import { priorities } from '../../../../shared/alarms/alarm.ts';
import { priorityWords } from '../../../common/words.ts';
import { Pick } from '../../planner/Choice.tsx';
import { NumberField } from '../../planner/NumberField.tsx';
import type { PartProps } from './Duty.tsx';
import { Clock, OnOff } from './fields.tsx';
import { text } from './words.ts';

const usualQuiet = { from: '22:00', to: '06:30', wakes: 'high' } as const;

/** When texts wait, how long an answer is waited for, and how many texts are too many. */
export function Timing({ plan, onChange }: PartProps) {
  const { quiet, escalateMinutes } = plan;
  return (
    <div class="duty-columns">
      <section aria-labelledby="quiet">
        <h2 id="quiet">{text.quiet}</h2>
        <OnOff
          label={text.quietOn}
          isOn={quiet !== null}
          onChange={(isOn) => onChange({ quiet: isOn ? usualQuiet : null })}
        />
        {quiet !== null && (
          <>
            <div class="side-by-side">
              <Clock
                label={text.from}
                value={quiet.from}
                onChange={(from) => onChange({ quiet: { ...quiet, from } })}
              />
              <Clock
                label={text.to}
                value={quiet.to}
                onChange={(to) => onChange({ quiet: { ...quiet, to } })}
              />
            </div>
            <Pick
              label={text.quietWakes}
              value={quiet.wakes}
              choices={priorities.map((one) => [one, priorityWords[one]] as const)}
              onChange={(wakes) => onChange({ quiet: { ...quiet, wakes } })}
            />
          </>
        )}
      </section>
      <section aria-labelledby="escalate">
        <h2 id="escalate">{text.escalate}</h2>
        <p class="hint">{text.escalateLead}</p>
        <div class="side-by-side">
          {priorities.map((priority) => (
            <NumberField
              key={priority}
              label={priorityWords[priority]}
              value={escalateMinutes[priority]}
              min={1}
              max={10_080}
              optional
              onChange={(minutes) =>
                onChange({
                  escalateMinutes: { ...escalateMinutes, [priority]: minutes && Math.round(minutes) },
                })
              }
            />
          ))}
        </div>
        <NumberField
          label={text.perHour}
          value={plan.textsPerHour}
          min={2}
          max={60}
          hint={text.perHourHint}
          onChange={(count) => onChange({ textsPerHour: Math.round(count ?? plan.textsPerHour) })}
        />
        <NumberField
          label={text.group}
          value={plan.groupSeconds}
          min={0}
          max={600}
          hint={text.groupHint}
          onChange={(seconds) => onChange({ groupSeconds: Math.round(seconds ?? plan.groupSeconds) })}
        />
      </section>
    </div>
  );
}
