import type { FastifyRequest } from 'fastify';
import type { House } from '../house.ts';
import { ApiProblem } from '../problems/apiProblem.ts';

/** How long a shown password counts. Long enough to add five people, too short for a phone left on a bench. */
export const confirmedForMs = 15 * 60_000;

/**
 * Refuses unless the person has shown their password a short while ago: whoever picks up a phone that is signed in must
 * not be able to turn the alarms to another number or make themselves an owner (ASVS 7.5.1).
 */
export async function requireConfirmed(house: House, request: FastifyRequest): Promise<void> {
  const { asker } = request;
  if (asker.kind !== 'person') throw new ApiProblem('not-signed-in', 'This needs a person who is signed in.');
  const session = await house.records.sessions.get(asker.sessionHash);
  const confirmedMs = session?.confirmedMs ?? null;
  if (confirmedMs !== null && house.realClock.nowMs() - confirmedMs < confirmedForMs) return;
  // Who signs in by link alone (the demo's owner) has no password to show.
  if ((await house.records.people.passwordHash(asker.person.id)) === null) return;
  throw new ApiProblem('confirm-first', 'Type your own password again before this is changed.');
}
