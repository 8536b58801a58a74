import { useEffect, useRef, useState } from 'preact/hooks';
import type { ConditionId, Priority } from '../../../shared/alarms/alarm.ts';
import type { LimitsVersionView } from '../../../shared/api/types.ts';
import type { Overrides } from '../../../shared/rules/parameters.ts';
import type { ReplayOutcome } from '../../../shared/rules/replayJob.ts';
import type { Suggestion } from '../../../shared/rules/suggestLimits.ts';
import type { Trial } from './trial.ts';
import type { HeldPast } from './usePast.ts';

export interface ReplayState {
  readonly outcome: ReplayOutcome | null;
  /** 0..1 while a replay runs, else null. */
  readonly share: number | null;
  /** How long the last one took, milliseconds. */
  readonly tookMs: number | null;
  readonly failure: string | null;
  /** Somebody pressed Stop. */
  readonly stopped: boolean;
  readonly stop: () => void;
  readonly again: () => void;
  /** What the search for better limits of this condition says; null while it has not been done. */
  readonly suggestion: Suggestion | null;
  readonly searching: boolean;
}

const atRest: Omit<ReplayState, 'stop' | 'again'> = {
  ...{ outcome: null, share: null, tookMs: null, failure: null },
  ...{ stopped: false, suggestion: null, searching: false },
};

export interface ReplayQuestion {
  readonly held: HeldPast | null;
  readonly current: LimitsVersionView;
  /** Null when nothing differs from what is in force. */
  readonly trial: Trial | null;
  readonly textsFrom: Priority;
  /** The condition better limits are searched for, once the page has come to rest. */
  readonly condition: ConditionId;
}

/** A search takes some replays' time: it waits until nobody is dragging. */
const restMs = 900;

/** Overrides without the nulls the API allows when saving. */
const asOverrides = (trial: Trial) => trial as Readonly<Record<string, Overrides>>;

/** Replays the pile's past at each change of the limits, and once all is still searches for better ones. */
export function useReplay({ held, current, trial, textsFrom, condition }: ReplayQuestion): ReplayState {
  const [state, setState] = useState(atRest);
  const [round, setRound] = useState(0);
  const searched = useRef(new Map<string, Suggestion>());
  const limits = { version: current.version, overrides: asOverrides(current.overrides) };
  const question = JSON.stringify([held?.fromMs, limits, trial, textsFrom]);
  const search = JSON.stringify([held?.fromMs, current.version, textsFrom, condition]);
  const ask = { current: limits, countFromMs: held?.fromMs ?? 0, textsFrom, troubles: null };
  useEffect(() => {
    if (held === null) return;
    let wanted = true;
    const say = (part: Partial<typeof atRest>) => wanted && setState((before) => ({ ...before, ...part }));
    const begun = performance.now();
    say({ share: 0, failure: null, stopped: false });
    const candidate = trial === null ? null : asOverrides(trial);
    held.replays
      .run({ ...ask, candidate, suggest: [] }, (share) => say({ share }))
      .then(
        (outcome) => {
          if (outcome !== null) say({ outcome, share: null, tookMs: performance.now() - begun });
        },
        (error: Error) => say({ share: null, failure: error.message }),
      );
    return () => {
      wanted = false;
    };
  }, [question, held, round]);
  const isStill = held !== null && state.share === null && !state.stopped;
  useEffect(() => {
    const known = searched.current.get(search) ?? null;
    setState((before) => ({ ...before, suggestion: known, searching: false }));
    if (held === null || !isStill || known !== null) return;
    let wanted = true;
    const lookForBetter = async () => {
      setState((before) => ({ ...before, searching: true }));
      const found = await held.replays.run({ ...ask, candidate: null, suggest: [condition] });
      const suggestion = found?.suggestions[0];
      if (suggestion === undefined) return;
      searched.current.set(search, suggestion);
      if (wanted) setState((before) => ({ ...before, suggestion, searching: false }));
    };
    const rest = setTimeout(() => void lookForBetter().catch(() => {}), restMs);
    return () => {
      wanted = false;
      clearTimeout(rest);
    };
  }, [search, question, held, isStill]);
  const stop = () => {
    held?.replays.stop();
    setState((before) => ({ ...before, share: null, stopped: true }));
  };
  return { ...state, stop, again: () => setRound(round + 1) };
}
