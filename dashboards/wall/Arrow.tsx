import { words } from '../common/words.ts';

const shapes = {
  up: { path: 'M2 12 L7 3 L12 12', label: words.rising },
  level: { path: 'M1 7.5 H13', label: words.steady },
  down: { path: 'M2 3 L7 12 L12 3', label: words.falling },
} as const;

/** Where a core is going, by shape: up, down or level. */
export function Arrow({ turn }: { readonly turn: -1 | 0 | 1 }) {
  const { path, label } = turn > 0 ? shapes.up : turn < 0 ? shapes.down : shapes.level;
  return (
    <svg class="arrow" viewBox="0 0 14 15" role="img" aria-label={label}>
      <path
        d={path}
        fill="none"
        stroke="currentColor"
        stroke-width="2.6"
        stroke-linecap="round"
        stroke-linejoin="round"
      />
    </svg>
  );
}
