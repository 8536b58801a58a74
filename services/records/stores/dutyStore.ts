import { defaultDutyPlan } from '../../../shared/messages/dutyPlan.ts';
import { dutyPlanColumn } from '../json.ts';
import type { DutyPlanVersion, DutyStore } from '../port.ts';
import type { Database } from '../schema.ts';
import { saveNext } from './versionedStore.ts';

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
  const insert = async ({ plan, ...row }: DutyPlanVersion) =>
    db
      .insertInto('dutyPlans')
      .values({ ...row, plan: dutyPlanColumn.write(plan, 'plan') })
      .execute();
  const table = { whatIs: 'the duty plan is', current, insert };
  return { current, save: ({ expectedVersion, ...change }) => saveNext(table, change, expectedVersion) };
}
