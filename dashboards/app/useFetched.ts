import { useEffect, useState } from 'preact/hooks';
import type { LiveChangeEvent } from '../../shared/api/types.ts';
import { api } from '../common/api.ts';
import { followLive } from '../common/live.ts';
import { failureText } from './session.ts';

export interface Fetched<T> {
  readonly data: T | null;
  readonly failure: string | null;
  readonly refetch: () => Promise<void>;
}

/** Fetches once and again whenever a live change matters; the last good answer stays while a newer one is awaited. */
export function useFetched<T>(
  path: string,
  matters: (change: LiveChangeEvent) => boolean = () => true,
  /** Fetched anew when this is another. */
  version: number | string = '',
): Fetched<T> {
  const [data, setData] = useState<T | null>(null);
  const [failure, setFailure] = useState<string | null>(null);
  const refetch = async () => {
    try {
      setData(await api.get<T>(path));
      setFailure(null);
    } catch (error) {
      setFailure(failureText(error));
    }
  };
  useEffect(() => {
    void refetch();
    return followLive({
      refresh: (changes) => {
        if (changes.some((change) => change.kind === 'yard' || matters(change))) void refetch();
      },
    });
  }, [path, version]);
  return { data, failure, refetch };
}
