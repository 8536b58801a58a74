import type { ComponentChildren, ComponentProps } from 'preact';
import { useId, useState } from 'preact/hooks';
import { Refusal } from '../common/api.ts';
import { failureText } from './session.ts';
import { appWords } from './words.ts';

interface FieldProps {
  readonly type?: 'text' | 'password' | 'number' | 'tel' | 'email' | 'url' | 'date' | 'time';
  readonly required?: boolean;
  /** What it holds at first. */
  readonly value?: string;
  readonly min?: string;
  readonly step?: string;
  readonly inputMode?: 'decimal';
  readonly autoComplete?: string;
  readonly autoCapitalize?: 'none';
  /** Id of a datalist with what is usual. */
  readonly list?: string;
  readonly onInput?: (event: InputEvent) => void;
  /** Of a list of choices. */
  readonly onChange?: (event: Event) => void;
  readonly label: string;
  readonly name: string;
  readonly hint?: string;
  readonly error?: string | null;
  readonly choices?: readonly (readonly [value: string, words: string])[];
}

/** One labelled field with its hint and what is wrong with it. */
export function Field(props: FieldProps) {
  const { label, name, hint, error, choices, value, type = 'text', onChange, ...input } = props;
  const id = useId();
  const described = `${id}-hint`;
  const common = {
    id,
    name,
    ...(hint || error ? { 'aria-describedby': described } : {}),
    ...(error ? { 'aria-invalid': true } : {}),
  };
  // The element's types want one fixed `type`; which one it is, is the caller's choice here.
  const attributes = {
    type,
    ...common,
    ...input,
    ...(value === undefined ? {} : { defaultValue: value }),
  } as ComponentProps<'input'>;
  return (
    <div class="field">
      <label for={id}>{label}</label>
      {choices ? (
        <select {...common} required={input.required ?? false} onChange={(event) => onChange?.(event)}>
          {choices.map(([choice, words]) => (
            <option key={choice} value={choice} selected={choice === value}>
              {words}
            </option>
          ))}
        </select>
      ) : (
        <input {...attributes} />
      )}
      {(hint || error) && (
        <p id={described} class={error ? 'wrong' : 'hint'}>
          {error ?? hint}
        </p>
      )}
    </div>
  );
}

interface FormProps {
  readonly button: string;
  /** What the fields held, by name. Throws a Refusal to have it shown. */
  readonly onSend: (values: Readonly<Record<string, string>>) => Promise<void>;
  readonly children: (wrong: (field: string) => string | null) => ComponentChildren;
}

/** A form that sends once at a time and shows what the service refuses beside the fields and above the button. */
export function Form({ button, onSend, children }: FormProps) {
  const [busy, setBusy] = useState(false);
  const [failure, setFailure] = useState<unknown>(null);
  const wrong = (field: string) => (failure instanceof Refusal ? failure.field(field) : null);
  const send = async (event: SubmitEvent) => {
    event.preventDefault();
    const values = Object.fromEntries(new FormData(event.currentTarget as HTMLFormElement)) as Record<
      string,
      string
    >;
    setBusy(true);
    setFailure(null);
    await onSend(values).catch(setFailure);
    setBusy(false);
  };
  return (
    <form onSubmit={(event) => void send(event)}>
      {children(wrong)}
      {failure !== null && (
        <p class="wrong" role="alert">
          {failureText(failure)}
        </p>
      )}
      <button type="submit" disabled={busy}>
        {busy ? appWords.sending : button}
      </button>
    </form>
  );
}
