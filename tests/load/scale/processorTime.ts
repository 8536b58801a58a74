import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';

const ticksPerSecond = Number(execFileSync('getconf', ['CLK_TCK'], { encoding: 'utf8' }));

/** Processor time of another program in microseconds, with that of children it has seen end (Linux, proc(5)). */
export function processorMicrosecondsOf(pid: number): number {
  const text = readFileSync(`/proc/${pid}/stat`, 'utf8');
  // The name in parentheses may hold spaces; user, system and both of ended children are fields 14 to 17.
  const fields = text.slice(text.lastIndexOf(')') + 2).split(' ');
  const ticks = fields.slice(11, 15).reduce((sum, field) => sum + Number(field), 0);
  return (ticks / ticksPerSecond) * 1e6;
}

/** Processor time of this process, all its threads, while `work` runs, over `units`; microseconds. */
export async function ownCost(units: number, work: () => Promise<unknown>): Promise<number> {
  const used = process.cpuUsage();
  await work();
  const { user, system } = process.cpuUsage(used);
  return (user + system) / units;
}
