import { type Expression, type RawBuilder, sql } from 'kysely';
import { type Priority, priorities } from '../../shared/alarms/alarm.ts';

/** A column's priority as a number to sort by: 0 for the most pressing. */
export function priorityRank(priority: Expression<Priority>): RawBuilder<number> {
  const cases = priorities.map((name, rank) => sql`when ${sql.lit(name)} then ${sql.lit(rank)}`);
  return sql<number>`case ${priority} ${sql.join(cases, sql` `)} end`;
}
