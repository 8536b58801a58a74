import { useId } from 'preact/hooks';

interface ChoiceProps<Value extends string> {
  readonly question: string;
  readonly value: Value;
  readonly choices: readonly (readonly [value: Value, words: string])[];
  readonly onChange: (value: Value) => void;
}

/** A question with a few answers, all of them in sight. */
export function Choice<Value extends string>({ question, value, choices, onChange }: ChoiceProps<Value>) {
  const name = useId();
  return (
    <fieldset class="choice">
      <legend>{question}</legend>
      {choices.map(([choice, words]) => (
        <label key={choice}>
          <input
            type="radio"
            name={name}
            value={choice}
            checked={choice === value}
            onChange={() => onChange(choice)}
          />
          {words}
        </label>
      ))}
    </fieldset>
  );
}

interface PickProps<Value extends string> extends Omit<ChoiceProps<Value>, 'question'> {
  readonly label: string;
  readonly labelHidden?: boolean;
}

/** One of a longer list. */
export function Pick<Value extends string>({
  label,
  labelHidden,
  value,
  choices,
  onChange,
}: PickProps<Value>) {
  const id = useId();
  return (
    <div class="field">
      <label for={id} class={labelHidden ? 'visually-hidden' : ''}>
        {label}
      </label>
      <select id={id} value={value} onChange={(event) => onChange(event.currentTarget.value as Value)}>
        {choices.map(([choice, words]) => (
          <option key={choice} value={choice} selected={choice === value}>
            {words}
          </option>
        ))}
      </select>
    </div>
  );
}
