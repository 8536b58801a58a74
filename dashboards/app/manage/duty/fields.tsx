import { useId } from 'preact/hooks';

interface ClockProps {
  readonly label: string;
  /** `06:30` */
  readonly value: string;
  readonly onChange: (value: string) => void;
}

/** A time of day. An empty one (half typed) is not taken over. */
export function Clock({ label, value, onChange }: ClockProps) {
  const id = useId();
  return (
    <div class="field">
      <label for={id}>{label}</label>
      <input
        id={id}
        type="time"
        value={value}
        onInput={(event) => event.currentTarget.value !== '' && onChange(event.currentTarget.value)}
      />
    </div>
  );
}

interface OnOffProps {
  readonly label: string;
  readonly hint?: string;
  readonly isOn: boolean;
  readonly onChange: (isOn: boolean) => void;
}

/** Something that is either done or not. */
export function OnOff({ label, hint, isOn, onChange }: OnOffProps) {
  return (
    <label class="on-off">
      <input type="checkbox" checked={isOn} onChange={(event) => onChange(event.currentTarget.checked)} />
      <span>
        {label} {hint && <span class="hint">{hint}</span>}
      </span>
    </label>
  );
}
