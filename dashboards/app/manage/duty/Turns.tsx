import type { DutyView } from '../../../../shared/api/types.ts';
import type { DutyShift } from '../../../../shared/messages/dutyPlan.ts';
import { Field, Form } from '../../Form.tsx';
import { Add } from '../Add.tsx';
import type { PartProps } from './Duty.tsx';
import { holidayWords, orderWords, text, weekdayLong, weekdayShort } from './words.ts';

const holidayKinds = Object.entries(holidayWords) as [DutyShift['holidays'], string][];

/** Every turn of duty, and one more. */
export function Turns({ plan, people, onChange }: PartProps) {
  const { shifts } = plan;
  const remove = (index: number) => onChange({ shifts: shifts.filter((_, other) => other !== index) });
  const add = async (fields: Readonly<Record<string, string>>) => {
    const { personId = '', order = '1', from = '08:00', to = '20:00', holidays = 'as-any-day' } = fields;
    const weekdays = [1, 2, 3, 4, 5, 6, 7].filter((day) => fields[`day-${day}`] === 'on');
    if (weekdays.length === 0) throw new Error(text.noWeekday);
    const shift = { personId, order: Number(order), from, to, weekdays, holidays: holidays as never };
    onChange({ shifts: [...shifts, shift] });
  };
  return (
    <section aria-labelledby="turns">
      <h2 id="turns">{text.turns}</h2>
      <ul class="log">
        {shifts.map((shift, index) => (
          <li key={`${index} ${JSON.stringify(shift)}`} class="turn-row">
            <span>{shiftWords(shift, people)}</span>
            <button type="button" class="quiet" onClick={() => remove(index)}>
              {text.remove}
              <span class="visually-hidden"> {shiftWords(shift, people)}</span>
            </button>
          </li>
        ))}
      </ul>
      <Add title={text.addTurn} open={shifts.length === 0}>
        <Form key={shifts.length} button={text.add} onSend={add}>
          {() => <TurnFields people={people} />}
        </Form>
      </Add>
    </section>
  );
}

function TurnFields({ people }: { readonly people: DutyView['people'] }) {
  return (
    <>
      <Field label={text.who} name="personId" choices={people.map(({ id, name }) => [id, name] as const)} />
      <Field
        label={text.told}
        name="order"
        choices={orderWords.map((words, index) => [String(index + 1), words] as const)}
      />
      <fieldset class="weekdays">
        <legend>{text.weekdays}</legend>
        {weekdayShort.map((name, index) => (
          <label key={name}>
            <input type="checkbox" name={`day-${index + 1}`} defaultChecked />
            <span aria-hidden="true">{name}</span>
            <span class="visually-hidden">{weekdayLong[index]}</span>
          </label>
        ))}
      </fieldset>
      <div class="side-by-side">
        <Field label={text.from} name="from" type="time" value="08:00" required />
        <Field label={text.to} name="to" type="time" value="20:00" hint={text.toHint} required />
      </div>
      <Field label={text.onHolidays} name="holidays" choices={holidayKinds} />
    </>
  );
}

function shiftWords(shift: DutyShift, people: DutyView['people']): string {
  const person = people.find(({ id }) => id === shift.personId);
  const name = person?.name ?? shift.personId;
  const days = shift.weekdays.map((day) => weekdayShort[day - 1]).join(' ');
  const hours = `${shift.from}\u2013${shift.to}`;
  const order = orderWords[shift.order - 1] ?? String(shift.order);
  return [
    shift.weekdays.length === 7 ? text.turn(name, hours, order) : text.turnOn(name, days, hours, order),
    ...(shift.holidays === 'as-any-day' ? [] : [text.onHolidaysIs(holidayWords[shift.holidays])]),
    ...(person?.reachable === false ? [text.unreachable] : []),
  ].join(', ');
}
