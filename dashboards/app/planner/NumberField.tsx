import { useId, useState } from 'preact/hooks';
import { display } from '../../common/format.ts';
import { text as words } from './words.ts';

interface NumberFieldProps {
  readonly label: string;
  readonly value: number | null;
  readonly onChange: (value: number | null) => void;
  readonly min: number;
  readonly max: number;
  /** Shown = value x scale: 100 for shares people see as percent. `min` and `max` are as shown. */
  readonly scale?: number;
  /** May be left empty. */
  readonly optional?: boolean;
  readonly placeholder?: string;
  readonly hint?: string;
  readonly readOnly?: boolean;
  /** For fields whose label stands in a heading anyway. */
  readonly labelHidden?: boolean;
}

/** One labelled number that is taken over while it is typed; what cannot be is said below and not taken over. */
export function NumberField(props: NumberFieldProps) {
  const { label, value, min, max, scale = 1, optional = false, hint } = props;
  const id = useId();
  // What was typed stays as typed while it means the value held; a value changed elsewhere shows instead. Compared
  // while drawing, not in an effect: one that ran late would take a quick typist's last digit away.
  const [typed, setTyped] = useState({ text: '', means: Number.NaN as number | null });
  const text = Object.is(typed.means, value) ? typed.text : value === null ? '' : tidy(value * scale);
  const wrong = complaint(text, min, max, optional);
  const type = (next: string) => {
    const taken = complaint(next, min, max, optional) === null;
    const means = !taken ? value : next.trim() === '' ? null : Number(next) / scale;
    setTyped({ text: next, means });
    if (taken) props.onChange(means);
  };
  return (
    <div class="field">
      <label for={id} class={props.labelHidden ? 'visually-hidden' : ''}>
        {label}
      </label>
      <input
        id={id}
        type="number"
        step="any"
        inputMode="decimal"
        min={min}
        max={max}
        value={text}
        placeholder={props.placeholder}
        readOnly={props.readOnly}
        aria-invalid={wrong !== null ? true : undefined}
        aria-describedby={wrong !== null || hint ? `${id}-hint` : undefined}
        onInput={(event) => type(event.currentTarget.value)}
      />
      {(wrong ?? hint) && (
        <p id={`${id}-hint`} class={wrong === null ? 'hint' : 'wrong'}>
          {wrong ?? hint}
        </p>
      )}
    </div>
  );
}

function complaint(typed: string, min: number, max: number, optional: boolean): string | null {
  if (typed.trim() === '') return optional ? null : words.numberNeeded;
  const number = Number(typed);
  return number >= min && number <= max ? null : words.notPossible(typed, min, max);
}

/** Six figures: no 0.30000000000000004. */
function tidy(value: number): string {
  return String(Number(value.toPrecision(6)));
}

interface TemperatureFieldProps {
  readonly label: string;
  readonly celsius: number;
  readonly onChange: (celsius: number) => void;
  readonly hint?: string;
  readonly minCelsius: number;
  readonly maxCelsius: number;
}

/** A temperature typed in the yard's unit. */
export function TemperatureField(props: TemperatureFieldProps) {
  const fahrenheit = display.value.unit === 'F';
  const out = (celsius: number) => (fahrenheit ? celsius * 1.8 + 32 : celsius);
  const back = (typed: number) => (fahrenheit ? (typed - 32) / 1.8 : typed);
  return (
    <NumberField
      label={words.withUnit(props.label, display.value.unit)}
      value={out(props.celsius)}
      onChange={(typed) => typed !== null && props.onChange(back(typed))}
      min={out(props.minCelsius)}
      max={out(props.maxCelsius)}
      {...(props.hint ? { hint: props.hint } : {})}
    />
  );
}
