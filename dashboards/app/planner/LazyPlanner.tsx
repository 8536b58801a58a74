import type { ComponentType } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import { failureText } from '../session.ts';

/** Fetches the planner when it is first opened: it is as big as the rest of the app together. */
export function LazyPlanner() {
  const [loaded, setLoaded] = useState<{ readonly Planner: ComponentType } | null>(null);
  const [failure, setFailure] = useState<string | null>(null);
  useEffect(() => {
    import('./Planner.tsx').then(setLoaded, (error) => setFailure(failureText(error)));
  }, []);
  if (loaded === null) return <main class="page">{failure ?? 'Fetching the planner...'}</main>;
  return <loaded.Planner />;
}
