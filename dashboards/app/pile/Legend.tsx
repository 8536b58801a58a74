import type { ChartLine } from './chartColumns.ts';

/** Which line is which, by a piece of the line itself: its dashes tell it apart where colours do not. */
export function Legend({ lines }: { readonly lines: readonly ChartLine[] }) {
  return (
    <ul class="legend">
      {lines.map(({ label, stroke, width, dash }) => (
        <li key={label}>
          <svg viewBox="0 0 34 10" width="34" height="10" aria-hidden="true">
            <path d="M1 5 H33" stroke={stroke} stroke-width={width} stroke-dasharray={dash?.join(' ')} />
          </svg>{' '}
          {label}
        </li>
      ))}
    </ul>
  );
}
