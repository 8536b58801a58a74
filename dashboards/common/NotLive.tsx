import { signal } from '@preact/signals';
import { dayAndTime, duration } from './format.ts';
import { link, quietMs, serverNowMs } from './liveClock.ts';
import { words } from './words.ts';

/** How old what is shown was when it was brought back from this browser's memory; null while it came from the service. */
export const keptAgeMs = signal<number | null>(null);

/** Whether a screen must say that it is not live. In the first seconds of a page it is neither live nor lost. */
export const isLost = () => link.value === 'lost' || link.value === 'ended' || keptAgeMs.value !== null;

/** The loud line of a screen that has lost its link: why, of when what it shows is, and how old that makes it. */
export function NotLive({ why }: { readonly why: string | null }) {
  const oldMs = keptAgeMs.value ?? quietMs.value;
  return (
    <div class="lost">
      <p role="alert">
        <strong>{words.notLive}</strong> {why ?? words.notLiveHint}
      </p>
      <p>
        {oldMs !== null && oldMs >= 60_000
          ? words.shownIsOfOld(dayAndTime(serverNowMs.value), duration(oldMs))
          : words.shownIsOf(dayAndTime(serverNowMs.value))}
      </p>
    </div>
  );
}
