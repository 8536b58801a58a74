import { useEffect, useState } from 'preact/hooks';
import type { JournalEntry } from '../../../shared/yard/journal.ts';
import { failureText } from '../session.ts';
import { curvesOf, type PastCurves } from './curve.ts';
import { fetchPast } from './fetchPast.ts';
import { openReplays, type Replays } from './replays.ts';

const dayMs = 86_400_000;
/** Read before what is counted, so that timers and sums stand right when it begins. */
const warmUpMs = 4 * dayMs;

/** A pile's past, here to be replayed. */
export interface HeldPast {
  readonly fromMs: number;
  readonly toMs: number;
  readonly curves: PastCurves;
  readonly journal: readonly JournalEntry[];
  readonly replays: Replays;
}

export interface PastState {
  readonly held: HeldPast | null;
  /** Share of the past that has come, 0..1. */
  readonly share: number;
  readonly failure: string | null;
}

const nothing: PastState = { held: null, share: 0, failure: null };

/** Fetches a pile's past from `fromMs` on and hands it to a worker; another stretch ends the one before. */
export function usePast(pileId: string, fromMs: number | null, toMs: number): PastState {
  const [state, setState] = useState(nothing);
  useEffect(() => {
    if (fromMs === null) return;
    const gone = new AbortController();
    let replays: Replays | null = null;
    setState(nothing);
    const span = { fromMs: Math.max(0, fromMs - warmUpMs), toMs };
    fetchPast(pileId, span, (share) => setState({ ...nothing, share }), gone.signal).then(
      ({ past, bytes }) => {
        if (gone.signal.aborted) return;
        const curves = curvesOf(past, fromMs);
        replays = openReplays(bytes);
        const held = { fromMs, toMs: past.toMs, curves, journal: past.facts.journal, replays };
        setState({ held, share: 1, failure: null });
      },
      (error) => {
        if (!gone.signal.aborted) setState({ ...nothing, failure: failureText(error) });
      },
    );
    return () => {
      gone.abort();
      replays?.close();
    };
  }, [pileId, fromMs, toMs]);
  return state;
}
