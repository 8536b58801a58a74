import { allMigrations } from '../../../services/records/migrations/all.ts';
import { openRecords } from '../../../services/records/openRecords.ts';
import type { Project } from './compose.ts';

/** The newest step, the one that is missing in the older records. */
export const newestStep = Object.keys(allMigrations).sort().at(-1)!;
const markName = 'test:before-the-upgrade';

/** Lays records out in the project's empty PostgreSQL as the version before today's newest step did, with one row. */
export async function makeOlderRecords(project: Project, password: string): Promise<void> {
  const { [newestStep]: _, ...before } = allMigrations;
  const { NetworkSettings } = await project.inspect('postgres');
  const host = Object.values(NetworkSettings.Networks)[0]!.IPAddress;
  const connectionString = `postgresql://tilth:${encodeURIComponent(password)}@${host}:5432/tilthwatch`;
  const records = await openRecords({ kind: 'postgres', connectionString, migrations: before });
  try {
    await records.marks.set(markName, 'kept');
  } finally {
    await records.close();
  }
}

/** What became of that row. */
export const markOfOlderRecords = async (project: Project) =>
  askPostgres(project, `select value from marks where name = '${markName}'`);

/** The answer of one cell. */
export async function askPostgres(project: Project, question: string): Promise<string> {
  const words = ['-U', 'tilth', '-d', 'tilthwatch', '-tAc', question];
  return (await project.exec('postgres', 'psql', ...words)).trim();
}
