import type { allConditions } from '../../shared/rules/allConditions.ts';

/** What lists and settings screens need of a condition, whatever it judges. */
export type ConditionFacts = (typeof allConditions)[number];
