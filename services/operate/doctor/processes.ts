import { z } from 'zod';
import type { ProcessStore } from '../../records/port.ts';
import { type Finding, good, warning } from './finding.ts';

/** Longer than two signs of life of a process are apart. */
const lookApartMs = 5_000;

/** Services a yard cannot do without, and what it means that nobody runs one. */
const needed: readonly (readonly [string, string])[] = [
  ['ingest', 'no reading is taken in'],
  ['rules', 'no pile is judged'],
  ['notify', 'nobody is told anything'],
  ['web', 'there are no screens'],
  ['series', 'readings are not forwarded, and not removed when they are past their keeping'],
];

const standingSchema = z.object({ services: z.array(z.string()) });

/** Which processes of a yard are alive, and whether every service runs somewhere. */
export async function processFindings(
  processes: Pick<ProcessStore, 'list'>,
  apartMs = lookApartMs,
): Promise<Finding[]> {
  const before = new Map((await processes.list()).map(({ id, beat }) => [id, beat]));
  await new Promise((resolve) => setTimeout(resolve, apartMs));
  const alive = (await processes.list()).filter(({ id, beat }) => before.get(id) !== beat);
  if (alive.length === 0) return [good('processes', 'none runs just now')];
  const services = alive.flatMap(({ standing }) => standingSchema.parse(JSON.parse(standing)).services);
  const counts = [...Map.groupBy(services, (name) => name)].map(([name, all]) => `${name} ${all.length}`);
  const findings = [good('processes', `${alive.length} alive: ${counts.sort().join(', ')}`)];
  for (const [name, meaning] of needed)
    if (!services.includes(name))
      findings.push(
        warning('processes', `${name} runs nowhere: ${meaning}`, `Start one with --only ${name}.`),
      );
  return findings;
}
