/** What one look found. */
export interface Finding {
  /** What was looked at: "Node", "disk", "MQTT broker"... */
  readonly about: string;
  /** `bad`: the yard cannot do its work; `warning`: it soon may not, or one thing does not. */
  readonly state: 'good' | 'warning' | 'bad';
  /** How it stands, in plain words, without secrets. */
  readonly text: string;
  /** What to do; null when all is well. */
  readonly doNext: string | null;
}

export const good = (about: string, text: string): Finding => ({ about, state: 'good', text, doNext: null });
export const warning = (about: string, text: string, doNext: string): Finding => ({
  ...{ about, state: 'warning', text, doNext },
});
export const bad = (about: string, text: string, doNext: string): Finding => ({
  ...{ about, state: 'bad', text, doNext },
});

/** One look. Throwing counts as bad. */
export interface Look {
  readonly about: string;
  readonly run: () => Promise<readonly Finding[]>;
}

/** Runs every look, one after another so that the report keeps its order; none can hold up the others for long. */
export async function runLooks(looks: readonly Look[], patienceMs = 10_000): Promise<Finding[]> {
  const findings: Finding[] = [];
  for (const { about, run } of looks) {
    const late = new Promise<readonly Finding[]>((resolve) => {
      const text = `no answer within ${patienceMs / 1000} s`;
      setTimeout(resolve, patienceMs, [
        bad(about, text, 'Try again; see whether the machine is overloaded.'),
      ]).unref();
    });
    const found = await Promise.race([run(), late]).catch((error: unknown) => {
      const why = error instanceof Error ? error.message : String(error);
      return [
        bad(about, `could not be looked at: ${why}`, 'See what it says, and that this account may read it.'),
      ];
    });
    findings.push(...found);
  }
  return findings;
}

const marks = { good: 'ok      ', warning: 'WARNING ', bad: 'BAD     ' } as const;

/** The report as lines; words, not colours, tell how each stands. */
export function reportText(findings: readonly Finding[]): string {
  const lines = findings.flatMap(({ about, state, text, doNext }) => [
    `${marks[state]} ${about}: ${text}`,
    ...(doNext === null ? [] : [`          -> ${doNext}`]),
  ]);
  const count = (state: Finding['state']) => findings.filter((finding) => finding.state === state).length;
  const [badOnes, warnings] = [count('bad'), count('warning')];
  const verdict =
    badOnes + warnings === 0
      ? 'All is well.'
      : `${badOnes} bad, ${warnings} ${warnings === 1 ? 'warning' : 'warnings'}: begin at the top.`;
  return [...lines, '', verdict].join('\n');
}
