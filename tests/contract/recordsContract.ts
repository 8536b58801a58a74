import { describe } from 'vitest';
import { describeAlarms } from './records/alarms.ts';
import { describeClaims } from './records/claims.ts';
import { describeClaimProperty } from './records/claimsNeverShared.ts';
import { describeDuty } from './records/duty.ts';
import { describeHeldMessages } from './records/heldMessages.ts';
import { describeMessages } from './records/messages.ts';
import { describeOpening } from './records/opening.ts';
import { describePastSchemas } from './records/pastSchemas.ts';
import { describePeople } from './records/people.ts';
import { describePlacements } from './records/placements.ts';
import { describeProbes } from './records/probes.ts';
import { describeSharing } from './records/sharing.ts';
import type { FreshDatabase } from './records/useRecords.ts';
import { describeWriters } from './records/writers.ts';
import { describeYards } from './records/yards.ts';

/**
 * What every database under the records must do, whatever it is.
 * @param fresh gives the way to a new, empty database at each call
 * @param suite `describe`, or one that skips or fails where the database is missing
 */
export function describeRecordsContract(
  name: string,
  fresh: FreshDatabase,
  suite: (name: string, cases: () => void) => void = describe,
): void {
  suite(`records on ${name}`, () => {
    describe('opening', () => describeOpening(fresh));
    describe('databases of the past', () => describePastSchemas(fresh));
    describe('yards, piles, limits and journal', () => describeYards(fresh));
    describe('placements', () => describePlacements(fresh));
    describe('alarms', () => describeAlarms(fresh));
    describe('messages', () => describeMessages(fresh));
    describe('messages held, told together or lost from sight', () => describeHeldMessages(fresh));
    describe('duty, ways to reach people, texts from them', () => describeDuty(fresh));
    describe('claiming messages', () => describeClaims(fresh));
    describe('claiming messages, whatever happens', () => describeClaimProperty(fresh));
    describe('people and sign-in', () => describePeople(fresh));
    describe('probes and quarantine', () => describeProbes(fresh));
    describe('several processes', () => describeSharing(fresh));
    describe('several writers', () => describeWriters(fresh));
  });
}
