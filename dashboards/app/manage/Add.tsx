import type { ComponentChildren } from 'preact';

interface AddProps {
  readonly title: string;
  /** Unfolded from the start: there is nothing else to see yet. */
  readonly open: boolean;
  readonly children: ComponentChildren;
}

/** The form that adds one more, folded away above the list so that nobody scrolls past fifty probes to reach it. */
export function Add({ title, open, children }: AddProps) {
  return (
    <details class="add" open={open}>
      <summary>{title}</summary>
      {children}
    </details>
  );
}
