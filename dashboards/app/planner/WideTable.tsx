import type { ComponentChildren } from 'preact';

/** A table that may be wider than a phone: it scrolls by itself, also by keyboard. */
export function WideTable({
  label,
  children,
}: {
  readonly label: string;
  readonly children: ComponentChildren;
}) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard (WCAG 2.1.1)
    <section class="table-scroll" aria-label={label} tabIndex={0}>
      <table>{children}</table>
    </section>
  );
}
