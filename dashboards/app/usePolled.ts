import { useEffect, useState } from 'preact/hooks';
import { api } from '../common/api.ts';
import { failureText } from './session.ts';

const everyMs = 2000;

/**
 * Asks again every two seconds while a person stands there and waits for something to happen: a probe's first message, a
 * stem that warms up. Nothing is asked while the page is out of sight, or while `path` is null.
 */
export function usePolled<T>(path: string | null): {
  readonly data: T | null;
  readonly failure: string | null;
} {
  const [state, setState] = useState<{ data: T | null; failure: string | null }>({
    data: null,
    failure: null,
  });
  useEffect(() => {
    if (path === null) return;
    let isOver = false;
    const ask = async () => {
      if (document.hidden) return;
      try {
        const data = await api.get<T>(path);
        if (!isOver) setState({ data, failure: null });
      } catch (error) {
        if (!isOver) setState(({ data }) => ({ data, failure: failureText(error) }));
      }
    };
    void ask();
    const timer = setInterval(() => void ask(), everyMs);
    return () => {
      isOver = true;
      clearInterval(timer);
    };
  }, [path]);
  return state;
}
