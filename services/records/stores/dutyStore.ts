import { type DutyPlan, defaultDutyPlan } from '../../../shared/messages/dutyPlan.ts';
import { isUniqueBroken } from '../dialects/constraint.ts';
import { dutyPlanColumn } from '../json.ts';
import { type DutyPlanVersion, type DutyStore, VersionConflict } from '../port.ts';
import { refusing } from '../refusals.ts';
import type { Database } from '../schema.ts';

export function dutyStore(db: Database): DutyStore {
  async function current(yardId: string): Promise<DutyPlanVersion> {
    const row = await db
      .selectFrom('dutyPlans')
      .selectAll()
      .where('yardId', '=', yardId)
      .orderBy('version', 'desc')
      .limit(1)
      .executeTakeFirst();
    if (row === undefined) return { yardId, version: 0, plan: defaultDutyPlan, by: null, savedMs: 0 };
    return { ...row, plan: dutyPlanColumn.read(row.plan) };
  }
  return {
    current,
    async save({ expectedVersion, plan, ...change }) {
      const stored = await current(change.yardId);
      if (stored.version !== expectedVersion) throw changedMeanwhile(stored.version, expectedVersion);
      const version = expectedVersion + 1;
      const row = { ...change, version, plan: dutyPlanColumn.write(plan satisfies DutyPlan, 'plan') };
      try {
        await refusing(db.insertInto('dutyPlans').values(row).execute(), { reference: 'yardId' });
      } catch (error) {
        if (isUniqueBroken(error)) throw changedMeanwhile(version, expectedVersion);
        throw error;
      }
      return { ...change, version, plan };
    },
  };
}

function changedMeanwhile(stored: number, expected: number): VersionConflict {
  return new VersionConflict(`the duty plan is at version ${stored}, not ${expected}`);
}
