import { Field, Form } from '../../Form.tsx';
import { Add } from '../Add.tsx';
import type { PartProps } from './Duty.tsx';
import { text } from './words.ts';

/** Holidays, and who is away when. */
export function Days({ plan, people, onChange }: PartProps) {
  const { holidays, away } = plan;
  const nameOf = (id: string) => people.find((one) => one.id === id)?.name ?? id;
  const addHoliday = async ({ day = '' }: Readonly<Record<string, string>>) =>
    onChange({ holidays: [...new Set([...holidays, day])].sort() });
  const addAway = async ({ personId = '', fromDay = '', toDay = '' }: Readonly<Record<string, string>>) =>
    onChange({ away: [...away, { personId, fromDay, toDay }] });
  return (
    <div class="duty-columns">
      <section aria-labelledby="holidays">
        <h2 id="holidays">{text.holidays}</h2>
        <ul class="log">
          {holidays.map((day) => (
            <li key={day} class="turn-row">
              <span>{day}</span>
              <Remove
                what={day}
                onPress={() => onChange({ holidays: holidays.filter((one) => one !== day) })}
              />
            </li>
          ))}
        </ul>
        <Add title={text.addHoliday} open={false}>
          <Form key={holidays.length} button={text.add} onSend={addHoliday}>
            {() => <Field label={text.day} name="day" type="date" required />}
          </Form>
        </Add>
      </section>
      <section aria-labelledby="away">
        <h2 id="away">{text.away}</h2>
        <ul class="log">
          {away.map((one, index) => (
            <li key={`${index} ${JSON.stringify(one)}`} class="turn-row">
              <span>
                {nameOf(one.personId)}: {one.fromDay} – {one.toDay}
              </span>
              <Remove
                what={nameOf(one.personId)}
                onPress={() => onChange({ away: away.filter((_, other) => other !== index) })}
              />
            </li>
          ))}
        </ul>
        <Add title={text.addAway} open={false}>
          <Form key={away.length} button={text.add} onSend={addAway}>
            {() => (
              <>
                <Field
                  label={text.who}
                  name="personId"
                  choices={people.map(({ id, name }) => [id, name] as const)}
                />
                <div class="side-by-side">
                  <Field label={text.firstDay} name="fromDay" type="date" required />
                  <Field label={text.lastDay} name="toDay" type="date" required />
                </div>
              </>
            )}
          </Form>
        </Add>
      </section>
    </div>
  );
}

function Remove({ what, onPress }: { readonly what: string; readonly onPress: () => void }) {
  return (
    <button type="button" class="quiet" onClick={onPress}>
      {text.remove}
      <span class="visually-hidden"> {what}</span>
    </button>
  );
}
