import { decodePast, type ReplayablePast } from '../../../shared/api/past.ts';
import type { Problem } from '../../../shared/api/types.ts';
import { Refusal } from '../../common/api.ts';

export interface FetchedPast extends ReplayablePast {
  /** To be handed to the worker; the columns above are views of them until then. */
  readonly bytes: ArrayBuffer;
}

/** Fetches a stretch of a pile's past, telling how much of it is here, 0..1. Throws Refusal as `api` does. */
export async function fetchPast(
  pileId: string,
  span: { readonly fromMs: number; readonly toMs: number },
  onProgress: (share: number) => void,
  signal: AbortSignal,
): Promise<FetchedPast> {
  const path = `/api/piles/${encodeURIComponent(pileId)}/past?fromMs=${span.fromMs}&toMs=${span.toMs}`;
  const answer = await fetch(path, { signal });
  if (!answer.ok) throw new Refusal((await answer.json()) as Problem);
  const bytes = await readWhole(answer, onProgress);
  return { ...decodePast(bytes), bytes };
}

async function readWhole(answer: Response, onProgress: (share: number) => void): Promise<ArrayBuffer> {
  const total = Number(answer.headers.get('content-length') ?? 0);
  const pieces: Uint8Array[] = [];
  let length = 0;
  for (const reader = answer.body!.getReader(); ; ) {
    const { done, value } = await reader.read();
    if (done) break;
    pieces.push(value);
    length += value.length;
    if (total > 0) onProgress(Math.min(1, length / total));
  }
  const whole = new Uint8Array(length);
  let at = 0;
  for (const piece of pieces) {
    whole.set(piece, at);
    at += piece.length;
  }
  return whole.buffer;
}
