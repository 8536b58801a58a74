/**
 * What one unit of each work costs: `npm run bench scale`. Processor time of every part, in microseconds and as a ratio
 * to a bare baseline of the same run, and bytes on disk; from them the limits of one box and the plans for many. With
 * `--write` the page `tests/load/scale/README.md` is given the new figures and the plans that follow from them.
 */
import { execFile } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { nodeFlags } from '../../services/nodeFlags.mjs';
import { temporaryFolder } from '../helpers/writePath.ts';
import { prepareYard } from './rules/prepareYard.ts';
import { bareCost, builtInCost, takenCost } from './scale/arrival.ts';
import { type Costs, costTable, rounded } from './scale/costs.ts';
import { writePage } from './scale/page.ts';
import { limitTable, loads, planTable } from './scale/plan.ts';
import { forwardCost, postgresCost, postgresSeriesCost, sqliteCost } from './scale/stores.ts';

const messages = 60_000;
const piles = 2_000;

/** In a process of its own, as the rules bench runs it; what an empty loop takes in the same time is taken off. */
async function judgementCost(): Promise<number> {
  const folder = await temporaryFolder();
  await prepareYard(folder.path, piles, Date.now());
  const program = fileURLToPath(new URL('./rules/measure.ts', import.meta.url));
  const run = async (what: string, seconds: number) => {
    const words = [...nodeFlags, program, folder.path, what, String(piles), String(seconds)];
    const { stdout } = await promisify(execFile)(process.execPath, words, { maxBuffer: 1 << 24 });
    return JSON.parse(stdout.trim().split('\n').at(-1)!) as Record<string, number>;
  };
  const empty = await run('empty', 10);
  const rules = await run('rules', 120);
  await folder.remove();
  const share = rules.processorShare! - empty.processorShare!;
  return (share * 60e6) / rules.assessedPerMinute!;
}

const bareMicroseconds = await bareCost(messages);
const one = await builtInCost(messages, 1);
const four = await builtInCost(messages, 4);
const taken = await takenCost(messages);
const forwarded = await forwardCost(400_000);
const sqlite = await sqliteCost(300);
const postgres = await postgresCost(300);
const shared = await postgresSeriesCost(2_000);
const costs: Costs = rounded({
  bareMicroseconds,
  messageOfOneMicroseconds: one.microseconds,
  messageOfFourMicroseconds: four.microseconds,
  messageTakenMicroseconds: taken.ours,
  brokerMicroseconds: taken.theirs,
  judgementMicroseconds: await judgementCost(),
  forwardMicroseconds: forwarded.ours,
  influxMicroseconds: forwarded.theirs,
  alarmSqliteMicroseconds: sqlite.alarms,
  alarmPostgresMicroseconds: postgres.alarms,
  statusPostgresMicroseconds: postgres.statuses,
  readingPostgresMicroseconds: shared.microseconds,
  localBytes: four.bytesPerReading,
  influxBytes: forwarded.bytesPerReading,
  postgresBytes: shared.bytesPerReading,
});
console.log(`${costTable(costs)}\n${limitTable(costs)}`);
for (const load of loads) console.log(planTable(load, costs));
if (process.argv.includes('--write')) writePage(costs);
