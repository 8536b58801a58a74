import type { ComponentType } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import { failureText } from './session.ts';

interface LazyProps<P> {
  /** Fetches the screen's own code, once. */
  readonly load: () => Promise<ComponentType<P>>;
  readonly waiting: string;
  readonly with: P;
}

/** A screen that is fetched when it is first opened: who only looks at piles downloads none of it. */
export function Lazy<P>({ load, waiting, with: given }: LazyProps<P>) {
  const [loaded, setLoaded] = useState<{ readonly Screen: ComponentType<P> } | null>(null);
  const [failure, setFailure] = useState<string | null>(null);
  useEffect(() => {
    load().then(
      (Screen) => setLoaded({ Screen }),
      (error) => setFailure(failureText(error)),
    );
  }, []);
  if (loaded === null) return <main class="page">{failure ?? waiting}</main>;
  return <loaded.Screen {...(given as P & object)} />;
}
