/**
 * Every type of the API without its schemas: `import type { WallView } from '../../shared/api/types.ts'` costs a
 * screen no bytes.
 */
export type * from './alarms.ts';
export type * from './audit.ts';
export type * from './channels.ts';
export type * from './common.ts';
export type * from './duty.ts';
export type * from './journal.ts';
export type * from './limits.ts';
export type * from './live.ts';
export type * from './messages.ts';
export type * from './outlook.ts';
export type * from './people.ts';
export type * from './pileForm.ts';
export type * from './pilePage.ts';
export type * from './piles.ts';
export type * from './placements.ts';
export type * from './probeSetUp.ts';
export type * from './probes.ts';
export type * from './problem.ts';
export type * from './quarantine.ts';
export type * from './records.ts';
export type * from './replay.ts';
export type * from './report.ts';
export type * from './report.ts';
export type * from './series.ts';
export type * from './service.ts';
export type * from './session.ts';
export type * from './setUp.ts';
export type * from './wall.ts';
export type * from './wallLinks.ts';
export type * from './wordings.ts';
export type * from './yard.ts';
export type * from './yardMap.ts';
