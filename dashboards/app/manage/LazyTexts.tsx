import type { ComponentType } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import { failureText } from '../session.ts';
import { wordingWords } from './wordingWords.ts';

/** Fetches the editor of texts when it is opened: it carries every sentence in every language. */
export function LazyTexts() {
  const [loaded, setLoaded] = useState<{ readonly Texts: ComponentType } | null>(null);
  const [failure, setFailure] = useState<string | null>(null);
  useEffect(() => {
    import('./Texts.tsx').then(setLoaded, (error) => setFailure(failureText(error)));
  }, []);
  if (loaded === null) return <p>{failure ?? wordingWords.fetching}</p>;
  return <loaded.Texts />;
}
