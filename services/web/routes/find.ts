import type { FastifyRequest } from 'fastify';
import type { Alarm } from '../../../shared/alarms/alarm.ts';
import type { JournalEntry } from '../../../shared/yard/journal.ts';
import type { Role } from '../../../shared/yard/people.ts';
import type { Pile, Yard } from '../../../shared/yard/yard.ts';
import type { Probe } from '../../records/port.ts';
import { personOf, yardIdOf } from '../access/asker.ts';
import type { House } from '../house.ts';
import { notFound } from '../problems/apiProblem.ts';

/** The asker's yard. */
export async function findYard(house: House, request: FastifyRequest): Promise<Yard> {
  const id = yardIdOf(request);
  const yard = await house.records.yards.get(id);
  if (yard === null) throw notFound('yard', 'yardId', id);
  return yard;
}

/** A pile of the asker's yard; one of another yard is "not found", like one that never was. */
export async function findPile(house: House, request: FastifyRequest, pileId: string): Promise<Pile> {
  const pile = await house.records.piles.get(pileId);
  if (pile === null || pile.yardId !== yardIdOf(request)) throw notFound('pile', 'pileId', pileId);
  return pile;
}

export async function findProbe(house: House, request: FastifyRequest, probeId: string): Promise<Probe> {
  const probe = await house.records.probes.get(probeId);
  if (probe === null || probe.yardId !== yardIdOf(request)) throw notFound('probe', 'probeId', probeId);
  return probe;
}

export async function findAlarm(house: House, request: FastifyRequest, alarmId: string): Promise<Alarm> {
  const alarm = await house.records.alarms.get(alarmId);
  if (alarm === null || alarm.yardId !== yardIdOf(request)) throw notFound('alarm', 'alarmId', alarmId);
  return alarm;
}

/** An entry of the journal of one of the asker's piles. */
export async function findEntry(
  house: House,
  request: FastifyRequest,
  entryId: string,
): Promise<{ entry: JournalEntry; pile: Pile }> {
  const entry = await house.records.journal.get(entryId);
  const pile = entry === null ? null : await house.records.piles.get(entry.pileId);
  if (entry === null || pile === null || pile.yardId !== yardIdOf(request))
    throw notFound('journal entry', 'entryId', entryId);
  return { entry, pile };
}

/** Role to show things for: a wall link sees what a viewer sees. */
export function roleOf(request: FastifyRequest): Role {
  return request.asker.kind === 'person' ? personOf(request).role : 'viewer';
}
