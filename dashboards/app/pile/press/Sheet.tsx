import type { ComponentChildren } from 'preact';
import { useEffect, useId, useRef } from 'preact/hooks';
import { text } from '../words.ts';

interface SheetProps {
  readonly title: string;
  readonly onClose: () => void;
  readonly children: ComponentChildren;
}

/** A sheet over the page, at the bottom where a thumb reaches; Escape, Close or a tap beside it put it away. */
export function Sheet({ title, onClose, children }: SheetProps) {
  const dialog = useRef<HTMLDialogElement>(null);
  const id = useId();
  useEffect(() => {
    const element = dialog.current!;
    element.showModal();
    return () => element.close();
  }, []);
  const tapped = (event: MouseEvent) => {
    if (event.target === dialog.current) onClose();
  };
  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents: Escape closes a dialog by itself
    <dialog ref={dialog} class="sheet-dialog" aria-labelledby={id} onClose={onClose} onClick={tapped}>
      <div class="sheet-inside">
        <h2 id={id}>{title}</h2>
        {children}
        <p>
          <button type="button" class="quiet wide" onClick={onClose}>
            {text.close}
          </button>
        </p>
      </div>
    </dialog>
  );
}
