import { useState } from 'preact/hooks';
import { text } from './words.ts';

/** Copies a text. Browsers allow it over HTTPS and on localhost only; elsewhere there is no button, and it can be marked. */
export function Copy({ content, what }: { readonly content: string; readonly what: string }) {
  const [isCopied, setCopied] = useState(false);
  if (!('clipboard' in navigator)) return null;
  const copy = () =>
    navigator.clipboard.writeText(content).then(
      () => setCopied(true),
      () => setCopied(false),
    );
  return (
    <button type="button" class="quiet copy" onClick={() => void copy()}>
      {isCopied ? text.copied : text.copy}
      <span class="visually-hidden"> {what}</span>
    </button>
  );
}
