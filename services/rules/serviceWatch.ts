import { statfs } from 'node:fs/promises';
import { nothingKnown, type ServiceFacts } from '../../shared/rules/serviceFacts.ts';
import type { Clock } from '../clock.ts';

/** Where the facts come from; each may fail, and what fails is not known. */
export interface ServiceSources {
  readonly dataFolder: string;
  readonly clock: Clock;
  /** Null while nothing can be said, e.g. before the broker is started. */
  readonly isBrokerConnected: () => boolean | null;
  /** Resolves when every database answers as it should; false or a rejection means it does not. */
  readonly isDatabaseReachable: () => Promise<boolean>;
  /** Used share of the space given to readings here; left out or null where none is given. */
  readonly localSpaceUsedFraction?: () => number | null;
  /** Since when the longest waiting message could have left, in the yard's time; null when none waits. */
  readonly oldestMessageMs: () => Promise<number | null>;
  /** Real time between two looks. Default 30,000. */
  readonly everyMilliseconds?: number;
}

export interface ServiceWatch {
  /** As last seen. */
  readonly facts: () => ServiceFacts;
  /** Looks at once; for tests and for the first time. */
  readonly look: () => Promise<void>;
  readonly stop: () => void;
}

/** A database that takes longer than this to answer is not there for those who wait. */
const longestAnswerMilliseconds = 10_000;

/** Looks at the program's own standing now and then, for the conditions of the yard that tell of it. */
export function startServiceWatch(sources: ServiceSources): ServiceWatch {
  let facts = nothingKnown;
  const clockStep = createStepMeter(sources.clock);
  const waited = createWaitMeter();
  let running: Promise<void> | null = null;
  const lookOnce = async () => {
    const { oldestMessageMs, ...rest } = await gather(sources);
    facts = { ...rest, messageWaitedMs: waited(oldestMessageMs), clockStep: clockStep() };
  };
  // A look that takes long is not joined by a second one.
  const look = () => {
    running ??= lookOnce().finally(() => {
      running = null;
    });
    return running;
  };
  const timer = setInterval(() => void look(), sources.everyMilliseconds ?? 30_000);
  timer.unref();
  void look();
  return { facts: () => facts, look, stop: () => clearInterval(timer) };
}

type Gathered = Omit<ServiceFacts, 'clockStep' | 'messageWaitedMs'> & {
  /** Undefined when it could not be read. */
  readonly oldestMessageMs: number | null | undefined;
};

async function gather(sources: ServiceSources): Promise<Gathered> {
  const [disk, reachable, oldest] = await Promise.all([
    statfs(sources.dataFolder).catch(() => null),
    answered(sources.isDatabaseReachable()),
    sources.oldestMessageMs().catch(() => undefined),
  ]);
  return {
    brokerConnected: sources.isBrokerConnected(),
    databaseReachable: reachable,
    diskFreeFraction: disk === null || disk.blocks === 0 ? null : disk.bavail / disk.blocks,
    diskFreeBytes: disk === null ? null : disk.bavail * disk.bsize,
    localSpaceUsedFraction: sources.localSpaceUsedFraction?.() ?? null,
    oldestMessageMs: oldest,
  };
}

/** True only when the answer is yes and comes in time. */
async function answered(answer: Promise<boolean>): Promise<boolean> {
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<boolean>((resolve) => {
    timer = setTimeout(() => resolve(false), longestAnswerMilliseconds);
  });
  const isYes = await Promise.race([answer.catch(() => false), late]);
  clearTimeout(timer);
  return isYes;
}

/** Real time for which the same message, or an older one, has been the oldest: the yard's own clock may run fast. */
function createWaitMeter(): (oldestMs: number | null | undefined) => number | null {
  let seen: { readonly oldestMs: number; readonly sinceSteady: number } | null = null;
  return (oldestMs) => {
    if (oldestMs === undefined) return null;
    if (oldestMs === null) seen = null;
    else if (seen === null || oldestMs > seen.oldestMs) seen = { oldestMs, sinceSteady: performance.now() };
    return seen === null ? 0 : Math.round(performance.now() - seen.sinceSteady);
  };
}

/** The wall clock against one that cannot be set: what they drift apart between two looks is a step. */
function createStepMeter(clock: Clock): () => ServiceFacts['clockStep'] {
  let before = { wall: Date.now(), steady: performance.now() };
  let last: ServiceFacts['clockStep'] = null;
  return () => {
    const now = { wall: Date.now(), steady: performance.now() };
    const stepMs = Math.round(now.wall - before.wall - (now.steady - before.steady));
    before = now;
    if (Math.abs(stepMs) >= 5000) last = { atMs: clock.nowMs(), stepMs };
    return last;
  };
}
