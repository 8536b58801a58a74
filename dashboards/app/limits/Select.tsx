import { useId } from 'preact/hooks';

interface SelectProps<T extends string> {
  readonly label: string;
  readonly value: T;
  readonly onChange: (value: T) => void;
  /** Choices under headings; one heading without words is no heading. */
  readonly groups: readonly {
    readonly title: string;
    readonly choices: readonly (readonly [value: T, words: string])[];
  }[];
}

/** A labelled list to pick from. */
export function Select<T extends string>({ label, value, onChange, groups }: SelectProps<T>) {
  const id = useId();
  return (
    <div class="field">
      <label for={id}>{label}</label>
      <select id={id} value={value} onChange={(event) => onChange(event.currentTarget.value as T)}>
        {groups.map(({ title, choices }) => {
          const options = choices.map(([choice, words]) => (
            <option key={choice} value={choice} selected={choice === value}>
              {words}
            </option>
          ));
          return title === '' ? (
            options
          ) : (
            <optgroup key={title} label={title}>
              {options}
            </optgroup>
          );
        })}
      </select>
    </div>
  );
}
