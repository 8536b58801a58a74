import { signal } from '@preact/signals';
import type { WallView } from '../../shared/api/types.ts';
import { api, Refusal } from '../common/api.ts';
import { display } from '../common/format.ts';
import { followLive } from '../common/live.ts';

/** What the wall shows; null until the first answer. */
export const wall = signal<WallView | null>(null);

/** Why there is nothing (newer) to show, in words; null when the last fetch went well. */
export const trouble = signal<string | null>(null);

/** Fetches again after this long when the service could not be reached. */
const retryMs = 5000;

let fetching = false;
let again = false;

/** Fetches the wall; calls while one is under way become one more fetch after it. */
export async function fetchWall(): Promise<void> {
  if (fetching) {
    again = true;
    return;
  }
  fetching = true;
  try {
    const view = await api.get<WallView>('/api/wall');
    display.value = { unit: view.yard.temperatureUnit, timeZone: view.yard.timeZone };
    wall.value = view;
    trouble.value = null;
  } catch (error) {
    trouble.value = error instanceof Refusal ? error.message : String(error);
    if (!(error instanceof Refusal && error.problem.status === 401))
      setTimeout(() => void fetchWall(), retryMs);
  } finally {
    fetching = false;
  }
  if (again) {
    again = false;
    await fetchWall();
  }
}

/** Starts the wall: first answer, then whatever the live link says. */
export function startWall(): () => void {
  void fetchWall();
  return followLive({ refresh: () => void fetchWall() });
}
