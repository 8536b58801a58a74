import type { Migration } from 'kysely/migration';
import { start } from './0001-start.ts';
import { telling } from './0002-telling.ts';
import { sanitisationOutcome } from './0003-sanitisation-outcome.ts';
import { quarantineYard } from './0004-quarantine-yard.ts';
import { pilePage } from './0005-pile-page.ts';
import { wordings } from './0006-wordings.ts';
import { sharing } from './0007-sharing.ts';
import { confirmedSessions } from './0008-confirmed-sessions.ts';
import { pileBuild } from './0009-pile-build.ts';
import { firstAction } from './0010-first-action.ts';
import { errands } from './0011-errands.ts';

/**
 * Every step from an empty database to today's schema, by name. A released step is never changed, only followed: its
 * name is written in people's databases. There are no steps back; a backup is made before each step forward.
 */
export const allMigrations: Readonly<Record<string, Migration>> = {
  '0001-start': start,
  '0002-telling': telling,
  '0003-sanitisation-outcome': sanitisationOutcome,
  '0004-quarantine-yard': quarantineYard,
  '0005-pile-page': pilePage,
  '0006-wordings': wordings,
  '0007-sharing': sharing,
  '0008-confirmed-sessions': confirmedSessions,
  '0009-pile-build': pileBuild,
  '0010-first-action': firstAction,
  '0011-errands': errands,
};
