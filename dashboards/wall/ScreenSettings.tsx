import { useId } from 'preact/hooks';
import { changeSettings, settings, type WallSettings } from './settings.ts';
import { nightWords, orderWords, showWords, wallWords } from './words.ts';

/** How this one screen shows the wall. Folded away; opened by whoever hangs the screen up. */
export function ScreenSettings() {
  const { order, show, diagonalInches, night, nightFromHour, nightToHour } = settings.value;
  return (
    <details class="settings">
      <summary>{wallWords.thisScreen}</summary>
      <div class="settings-panel">
        <Choice label={wallWords.order} name="order" choices={orderWords} value={order} />
        <Choice label={wallWords.show} name="show" choices={showWords} value={show} />
        {show === 'far' && (
          <Amount
            label={wallWords.diagonal}
            name="diagonalInches"
            value={diagonalInches}
            least={7}
            most={120}
          />
        )}
        <Choice label={wallWords.dark} name="night" choices={nightWords} value={night} />
        {night === 'clock' && (
          <>
            <Amount
              label={wallWords.darkFrom}
              name="nightFromHour"
              value={nightFromHour}
              least={0}
              most={23}
            />
            <Amount label={wallWords.lightFrom} name="nightToHour" value={nightToHour} least={0} most={23} />
          </>
        )}
        <p class="small">{wallWords.keptHere}</p>
        <p>
          <a href="/">{wallWords.toTheYard}</a>
        </p>
      </div>
    </details>
  );
}

interface ChoiceProps {
  readonly label: string;
  readonly name: keyof WallSettings;
  /** What each value is called, in the order they are offered. */
  readonly choices: Readonly<Record<string, string>>;
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
        {Object.entries(choices).map(([choice, text]) => (
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
