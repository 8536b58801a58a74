import { describe, expect, it } from 'vitest';
import { type Finding, good, reportText, runLooks, warning } from './finding.ts';
import { clockFindings, diskFinding, nodeFindings } from './machine.ts';

const nowMs = Date.UTC(2026, 10, 25, 12);
const states = (findings: readonly Finding[]) => findings.map(({ state }) => state);
const theirs = (seconds: number) => ({ who: 'InfluxDB', timeMs: nowMs - seconds * 1000, askedMs: nowMs });

describe('the clock', () => {
  it('is right when others agree, or when nobody is there to ask', () => {
    expect(states(clockFindings(nowMs, nowMs - 5, [theirs(30)]))).toEqual(['good']);
    expect(states(clockFindings(nowMs, null, []))).toEqual(['good']);
  });

  it.each([
    [3600, /3600 s ahead of InfluxDB/],
    [-90, /90 s behind InfluxDB/],
  ])('is wrong when it differs by %d s, and says in which direction', (seconds, words) => {
    const [finding] = clockFindings(nowMs, null, [theirs(seconds)]);
    expect(finding).toMatchObject({ state: 'warning', text: expect.stringMatching(words) });
    expect(finding!.doNext).toContain('timedatectl');
  });

  it('is wrong when files were written later than it says it is', () => {
    expect(states(clockFindings(nowMs, nowMs + 3_600_000, []))).toEqual(['bad']);
  });
});

describe('Node', () => {
  it('must be 24 or later', () => {
    expect(states(nodeFindings('24.0.0'))).toEqual(['good']);
    expect(states(nodeFindings('20.19.1'))).toEqual(['bad']);
  });
});

describe('the disk', () => {
  it.each([
    [5_000, 'good', null],
    [900, 'warning', /rawDays/],
    [150, 'bad', /rawDays/],
  ] as const)('with %d MB free of 10 GB is %s', (megabytes, state, doNext) => {
    const found = diskFinding({ bavail: megabytes, bsize: 1e6, blocks: 10_000 });
    expect(found.state).toBe(state);
    expect(found.text).toMatch(/^\d+\.\d GB free \(\d+ %\)$/);
    if (doNext === null) expect(found.doNext).toBeNull();
    else expect(found.doNext).toMatch(doNext);
  });
});

describe('the report', () => {
  it('says in words how each stands and what to do, and how many are bad', () => {
    const text = reportText([good('disk', '9 GB free'), warning('clock', '90 s behind', 'Set the clock.')]);
    expect(text).toContain('ok       disk: 9 GB free');
    expect(text).toContain('WARNING  clock: 90 s behind\n          -> Set the clock.');
    expect(text).toContain('0 bad, 1 warning');
    expect(reportText([good('disk', 'x')])).toContain('All is well.');
  });

  it('goes on when a look fails or never ends', async () => {
    const fails = { about: 'one', run: () => Promise.reject(new Error('no rights')) };
    const hangs = { about: 'two', run: () => new Promise<never>(() => {}) };
    const works = { about: 'three', run: async () => [good('three', 'x')] };
    const findings = await runLooks([fails, hangs, works], 20);
    expect(states(findings)).toEqual(['bad', 'bad', 'good']);
    expect(findings[0]!.text).toContain('no rights');
  });
});
