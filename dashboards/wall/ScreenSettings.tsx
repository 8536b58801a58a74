import { useId } from 'preact/hooks';
import { words } from '../common/words.ts';
import { changeSettings, settings, type WallSettings } from './settings.ts';

const orders = [
  ['worst', 'worst first'],
  ['place', 'by place'],
  ['map', 'by the yard’s map'],
] as const;

const shows = [
  ['all', 'every pile at once'],
  ['far', 'as many as read from 5 m, in turn'],
] as const;

const nights = [
  ['clock', 'at night, by the yard’s clock'],
  ['always', 'always: a dark room'],
  ['never', 'never: a bright room'],
] as const;

/** How this one screen shows the wall. Folded away; opened by whoever hangs the screen up. */
export function ScreenSettings() {
  const { order, show, diagonalInches, night, nightFromHour, nightToHour } = settings.value;
  return (
    <details class="settings">
      <summary>{words.thisScreen}</summary>
      <div class="settings-panel">
        <Choice label="Order" name="order" choices={orders} value={order} />
        <Choice label="Show" name="show" choices={shows} value={show} />
        {show === 'far' && (
          <Amount
            label="Screen, corner to corner, inches"
            name="diagonalInches"
            value={diagonalInches}
            least={7}
            most={120}
          />
        )}
        <Choice label="Dark" name="night" choices={nights} value={night} />
        {night === 'clock' && (
          <>
            <Amount label="Dark from, hour" name="nightFromHour" value={nightFromHour} least={0} most={23} />
            <Amount label="Light from, hour" name="nightToHour" value={nightToHour} least={0} most={23} />
          </>
        )}
        <p class="small">{words.keptHere}</p>
        <p>
          <a href="/">{words.toTheYard}</a>
        </p>
      </div>
    </details>
  );
}

interface ChoiceProps {
  readonly label: string;
  readonly name: keyof WallSettings;
  readonly choices: readonly (readonly [value: string, words: string])[];
  readonly value: string;
}

function Choice({ label, name, choices, value }: ChoiceProps) {
  const id = useId();
  return (
    <div>
      <label for={id}>{label}</label>
      <select
        id={id}
        value={value}
        onChange={({ currentTarget }) => changeSettings({ [name]: currentTarget.value })}
      >
        {choices.map(([choice, text]) => (
          <option key={choice} value={choice}>
            {text}
          </option>
        ))}
      </select>
    </div>
  );
}

interface AmountProps {
  readonly label: string;
  readonly name: keyof WallSettings;
  readonly value: number;
  readonly least: number;
  readonly most: number;
}

/** A whole number between two ends; what is not one is not taken. */
function Amount({ label, name, value, least, most }: AmountProps) {
  const id = useId();
  const change = (typed: number) => {
    if (Number.isFinite(typed) && typed >= least && typed <= most) changeSettings({ [name]: typed });
  };
  return (
    <div>
      <label for={id}>{label}</label>
      <input
        id={id}
        type="number"
        min={least}
        max={most}
        value={value}
        onChange={({ currentTarget }) => change(currentTarget.valueAsNumber)}
      />
    </div>
  );
}
