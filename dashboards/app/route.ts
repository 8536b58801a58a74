import { signal } from '@preact/signals';

/** Where in the app we are: the parts of `#/piles/abc` are `['piles', 'abc']`. */
export const route = signal<readonly string[]>(readRoute());

function readRoute(): string[] {
  return location.hash
    .replace(/^#\/?/, '')
    .split('/')
    .filter((part) => part !== '')
    .map(decodeURIComponent);
}

addEventListener('hashchange', () => {
  route.value = readRoute();
  scrollTo(0, 0);
});

/** Goes to a place of the app: `goTo('piles', id)`. */
export function goTo(...parts: readonly string[]): void {
  location.hash = `/${parts.map(encodeURIComponent).join('/')}`;
}

/** Address of a place of the app, for links. */
export const linkTo = (...parts: readonly string[]) => `#/${parts.map(encodeURIComponent).join('/')}`;
