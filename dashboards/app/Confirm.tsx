import { signal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import { api, confirmWith } from '../common/api.ts';
import { Field, Form } from './Form.tsx';
import { session } from './session.ts';
import { appWords } from './words.ts';

/** Whoever waits for the answer; null while nothing is asked. */
const asking = signal<((confirmed: boolean) => void) | null>(null);

confirmWith(
  () =>
    new Promise((resolve) => {
      asking.value?.(false);
      asking.value = resolve;
    }),
);

function answer(confirmed: boolean): void {
  asking.value?.(confirmed);
  asking.value = null;
}

/** Asks for the password again where the service wants to see it; Escape or the quiet button leaves all as it was. */
export function Confirm() {
  const dialog = useRef<HTMLDialogElement>(null);
  const isOpen = asking.value !== null;
  useEffect(() => {
    if (isOpen) dialog.current?.showModal();
    else dialog.current?.close();
  }, [isOpen]);
  const send = async ({ password }: Readonly<Record<string, string>>) => {
    await api.post('/api/session/confirm', { password });
    answer(true);
  };
  return (
    <dialog ref={dialog} class="confirm" aria-labelledby="confirm-title" onClose={() => answer(false)}>
      {isOpen && (
        <>
          <h2 id="confirm-title">{appWords.confirmTitle}</h2>
          <p>{appWords.confirmWhy}</p>
          <Form button={appWords.confirmButton} onSend={send}>
            {() => (
              <Field
                label={appWords.confirmLabel(session.value?.person?.name ?? '')}
                name="password"
                type="password"
                autoComplete="current-password"
                required
              />
            )}
          </Form>
          <button type="button" class="quiet" onClick={() => answer(false)}>
            {appWords.confirmNot}
          </button>
        </>
      )}
    </dialog>
  );
}
