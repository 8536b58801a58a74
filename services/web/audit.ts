import type { FastifyRequest } from 'fastify';
import { personOf } from './access/asker.ts';
import type { House } from './house.ts';

/** Writes down who changed what about limits, people or credentials. Never with a secret in `detail`. */
export async function audit(
  house: House,
  request: FastifyRequest,
  entry: { readonly action: string; readonly target: string; readonly detail?: string },
): Promise<void> {
  const person = personOf(request);
  await house.records.audit.add({
    yardId: person.yardId,
    atMs: house.clock.nowMs(),
    by: person.id,
    role: person.role,
    action: entry.action,
    target: entry.target,
    detail: entry.detail ?? '',
  });
}

/** "role viewer -> keeper, phone +44... -> none": what a change changed, in one line. */
export function changesInWords(before: object, change: object): string {
  const old = before as Record<string, unknown>;
  return Object.entries(change)
    .filter(([key, value]) => old[key] !== value)
    .map(([key, value]) => `${key} ${inWords(old[key])} -> ${inWords(value)}`)
    .join(', ');
}

function inWords(value: unknown): string {
  if (value === null || value === undefined) return 'none';
  return typeof value === 'object' ? JSON.stringify(value) : String(value);
}
