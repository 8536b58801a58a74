import type { ComponentChildren } from 'preact';
import { text } from './words.ts';

interface LogProps<T> {
  readonly entries: readonly T[];
  /** How many are shown unfolded: the newest. */
  readonly first: number;
  /** One entry as a list item, with its key. */
  readonly children: (entry: T) => ComponentChildren;
}

/** A list with its newest entries in sight and the rest folded away, so that a long story does not bury the page. */
export function Log<T>({ entries, first, children }: LogProps<T>) {
  const earlier = entries.slice(first);
  return (
    <>
      <ul class="log">{entries.slice(0, first).map(children)}</ul>
      {earlier.length > 0 && (
        <details>
          <summary>{text.foldedAway(earlier.length)}</summary>
          <ul class="log">{earlier.map(children)}</ul>
        </details>
      )}
    </>
  );
}
