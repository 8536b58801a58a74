import type { Role } from '../../../shared/yard/people.ts';

/** Roles in words, least first. */
export const roleChoices = [
  ['viewer', 'may look'],
  ['keeper', 'may look and act'],
  ['owner', 'may do everything'],
] as const satisfies readonly (readonly [Role, string])[];
