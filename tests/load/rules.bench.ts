/**
 * How the rules hold up under many piles: `npm run bench rules [piles] [seconds]`. Ten thousand piles get a reading a
 * minute and are judged each minute, on one core where `taskset` can pin it; measured beside an empty event loop in the
 * same way. Prints start-up, memory, event-loop delay and the share of the core that is used.
 */
import { execFile } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { nodeFlags } from '../../services/nodeFlags.mjs';
import { prepareYard } from './rules/prepareYard.ts';

const run = promisify(execFile);
const piles = Number(process.argv[2] ?? 10_000);
const seconds = Number(process.argv[3] ?? 190);
const program = fileURLToPath(new URL('./rules/measure.ts', import.meta.url));

const hasTaskset = await run('taskset', ['-V']).then(
  () => true,
  () => false,
);
if (!hasTaskset) console.log('taskset is not here: the process may use more than one core');

async function measure(what: 'empty' | 'rules', folder: string, forSeconds: number) {
  const args = [...nodeFlags, program, folder, what, String(piles), String(forSeconds)];
  const [file, all] = hasTaskset
    ? ['taskset', ['-c', '0', process.execPath, ...args]]
    : [process.execPath, args];
  const { stdout, stderr } = await run(file, all as string[], { maxBuffer: 1 << 24 });
  if (stderr.trim() !== '') console.error(stderr.trim());
  return JSON.parse(stdout.trim().split('\n').at(-1)!) as Record<string, number>;
}

const folder = mkdtempSync(join(tmpdir(), 'tilth-rules-'));
try {
  await prepareYard(folder, piles, Date.now());
  const empty = await measure('empty', folder, Math.min(seconds, 20));
  const rules = await measure('rules', folder, seconds);
  const line = (name: string, value: string, rest = '') =>
    console.log(`${name.padEnd(44)} ${value.padStart(14)}  ${rest}`);
  const ratio = (field: string) => `${(rules[field]! / empty[field]!).toFixed(1)} x an empty loop`;
  line('piles', String(piles));
  line('start-up, from records and 12 h of readings', `${rules.startSeconds!.toFixed(1)} s`);
  line('assessments a minute', rules.assessedPerMinute!.toFixed(0), 'aim: one a pile');
  line(
    'most memory resident',
    `${rules.mostMegabytes!.toFixed(0)} MB`,
    `aim: under 400; ${ratio('mostMegabytes')}`,
  );
  line('event-loop delay, median', `${rules.p50Ms!.toFixed(1)} ms`, ratio('p50Ms'));
  line(
    'event-loop delay, 99th percentile',
    `${rules.p99Ms!.toFixed(1)} ms`,
    `aim: under 50; ${ratio('p99Ms')}`,
  );
  line('event-loop delay, worst', `${rules.worstMs!.toFixed(0)} ms`, ratio('worstMs'));
  line('share of one core', `${(rules.processorShare! * 100).toFixed(0)} %`);
  line('alarms standing', String(rules.standing));
} finally {
  rmSync(folder, { recursive: true, force: true });
}
