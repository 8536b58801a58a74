import type { Clock } from '../clock.ts';

/** A gap this long, in the clock's time, means that nobody was listening (our choice, no source). */
const longGapMs = 10 * 60_000;

/** A smaller step back is an ordinary correction, and less than what judgement waits for late readings anyway. */
const stepBackMs = 60_000;

/** What happened to the clock since the last look: it ran on, it leapt ahead (or the machine slept), or it went back. */
export type ClockNews = 'ran-on' | 'leapt-ahead' | 'went-back';

export interface ClockWatch {
  readonly look: () => ClockNews;
}

/** Watches the yard's clock against the machine's steady one, which no correction moves. */
export function createClockWatch(clock: Clock): ClockWatch {
  let last = { clockMs: clock.nowMs(), steadyMs: performance.now() };
  return {
    look() {
      const now = { clockMs: clock.nowMs(), steadyMs: performance.now() };
      const ran = (now.steadyMs - last.steadyMs) * (clock.speed ?? 1);
      const stepMs = now.clockMs - last.clockMs - ran;
      last = now;
      if (stepMs > longGapMs) return 'leapt-ahead';
      return stepMs < -stepBackMs ? 'went-back' : 'ran-on';
    },
  };
}

/** Whether a service that was last alive then has been away for so long that silence proves nothing. */
export function wasAway(aliveMs: number | null, nowMs: number): boolean {
  return aliveMs !== null && nowMs - aliveMs > longGapMs;
}
