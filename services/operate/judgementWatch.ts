/** How far judgement is behind. */
export interface JudgementLag {
  /** Real time since judgement was asked to catch up, or what it took the last time; grows while it does not. */
  readonly seconds: number;
  /** Why it could not judge; null when it could or still tries. */
  readonly problem: string | null;
  readonly isCaughtUp: boolean;
}

export interface JudgementWatch {
  look(): Promise<JudgementLag>;
}

/**
 * Asks judgement to come up to what is stored and says how long that takes. The stored cursor alone would not do: it
 * moves only with a stored step, so a quiet yard would look as if it were behind. One question at a time.
 */
export function createJudgementWatch(rules: { settle(): Promise<void> }, patienceMs = 2_000): JudgementWatch {
  let startedAt = 0;
  let asking: Promise<JudgementLag> | null = null;
  const secondsSince = () => (performance.now() - startedAt) / 1000;

  async function ask(): Promise<JudgementLag> {
    try {
      await rules.settle();
      return { seconds: secondsSince(), problem: null, isCaughtUp: true };
    } catch (error) {
      const problem = error instanceof Error ? error.message : String(error);
      return { seconds: secondsSince(), problem, isCaughtUp: false };
    } finally {
      asking = null;
    }
  }

  return {
    async look() {
      if (asking === null) {
        startedAt = performance.now();
        asking = ask();
      }
      return Promise.race([asking, behind(patienceMs, secondsSince)]);
    },
  };
}

async function behind(patienceMs: number, seconds: () => number): Promise<JudgementLag> {
  await new Promise((resolve) => setTimeout(resolve, patienceMs).unref());
  return { seconds: seconds(), problem: null, isCaughtUp: false };
}
