import { execFile } from 'node:child_process';
import { constants } from 'node:fs';
import { access } from 'node:fs/promises';
import { promisify } from 'node:util';
import { connectAsync, type IClientOptions } from 'mqtt';
import pg from 'pg';
import { bad, type Finding, good, warning } from './finding.ts';
import type { OtherClock } from './machine.ts';

const patienceMs = 4_000;

/** Signs in to a broker under a name of its own and leaves: the session of the running yard is not touched. */
export async function brokerFinding(url: string, sign: IClientOptions): Promise<Finding> {
  const about = 'MQTT broker';
  const { host } = new URL(url);
  const once = { clientId: 'tilthwatch-doctor', clean: true, reconnectPeriod: 0, connectTimeout: patienceMs };
  try {
    const client = await connectAsync(url, { ...once, ...sign }, false);
    await client.endAsync(true);
    return good(about, `${host} lets us in`);
  } catch (error) {
    const why = error instanceof Error && error.message !== '' ? error.message : 'nobody answers there';
    const doNext =
      'See broker.externalUrl, externalUser, externalPassword and the certificate files, and that it runs.';
    return bad(about, `${host}: ${why}`, doNext);
  }
}

/** Asks PostgreSQL for the time, which also shows that it lets us in. */
export async function postgresFindings(
  connectionString: string,
  nowMs: () => number,
): Promise<{ findings: Finding[]; clocks: OtherClock[]; major: number | null }> {
  const about = 'PostgreSQL';
  const client = new pg.Client({ connectionString, connectionTimeoutMillis: patienceMs });
  client.on('error', () => {});
  try {
    await client.connect();
    const { rows } = await client.query<{ ms: string; version: string }>(
      `select extract(epoch from clock_timestamp()) * 1000 as ms, current_setting('server_version') as version`,
    );
    const { ms, version } = rows[0]!;
    const clock = { who: about, timeMs: Number(ms), askedMs: nowMs() };
    const findings = [good(about, `it lets us in and answers (version ${version})`)];
    return { findings, clocks: [clock], major: Number.parseInt(version, 10) };
  } catch (error) {
    const why = withoutAddress(error instanceof Error ? error.message : String(error));
    const doNext = 'See that it runs, and records.postgresUrl: host, database, user and password.';
    return { findings: [bad(about, why || 'nobody answers there', doNext)], clocks: [], major: null };
  } finally {
    await client.end().catch(() => {});
  }
}

/** Whether the copy that is made before a new schema could be made: found out now, not on the day of the upgrade. */
export async function postgresDumpFinding(serverMajor: number | null): Promise<Finding> {
  const about = 'pg_dump';
  try {
    const { stdout } = await promisify(execFile)('pg_dump', ['--version']);
    const ours = Number.parseInt(/\d+/.exec(stdout)?.[0] ?? '', 10);
    if (serverMajor === null || ours >= serverMajor) return good(about, stdout.trim());
    return warning(
      about,
      `of version ${ours} cannot copy the records from a server of version ${serverMajor} before an upgrade`,
      `Install the one of that version (Debian: postgresql-client-${serverMajor}), or copy the records yourself before each upgrade: records.postgresBackup "own".`,
    );
  } catch {
    const doNext =
      'Install it (Debian: postgresql-client), or copy the records yourself before each upgrade: records.postgresBackup "own".';
    return warning(about, 'is not here, and an upgrade copies the records with it first', doNext);
  }
}

const withoutAddress = (text: string): string => text.replaceAll(/\w+:\/\/\S+/g, '(address)');

/** The time a web server says it is, by the Date header of an answer without content. */
export async function httpClock(who: string, url: string, nowMs: () => number): Promise<OtherClock | null> {
  try {
    const answer = await fetch(url, { signal: AbortSignal.timeout(patienceMs), redirect: 'manual' });
    await answer.body?.cancel();
    const timeMs = Date.parse(answer.headers.get('date') ?? '');
    return Number.isNaN(timeMs) ? null : { who, timeMs, askedMs: nowMs() };
  } catch {
    return null;
  }
}

/** Whether people reach the yard by the address its texts give. From here it may fail where it works for them. */
export async function publicUrlFinding(publicUrl: string): Promise<Finding> {
  const about = 'public address';
  const url = `${publicUrl.replace(/\/+$/, '')}/healthz`;
  const doNext =
    'Open it on a phone. If it fails there too, see http.publicUrl, the reverse proxy and its certificate.';
  try {
    const answer = await fetch(url, { signal: AbortSignal.timeout(patienceMs) });
    const text = await answer.text();
    if (answer.ok && text.includes('"ok":true')) return good(about, `${publicUrl} leads here`);
    return warning(about, `${publicUrl} answers ${answer.status}, not as a running yard would`, doNext);
  } catch (error) {
    const cause =
      error instanceof Error && error.cause instanceof Error ? error.cause.message : String(error);
    return warning(about, `${publicUrl} cannot be reached from here: ${cause}`, doNext);
  }
}

/** Whether the modem's line can be opened by this account. It is not spoken to: the yard may be using it. */
export async function modemFinding(device: string): Promise<Finding> {
  try {
    await access(device, constants.R_OK | constants.W_OK);
    return good('GSM modem', `${device} is there`);
  } catch (error) {
    const isMissing = (error as NodeJS.ErrnoException).code === 'ENOENT';
    const text = isMissing ? `${device} is not there` : `${device} may not be used by this account`;
    const doNext = isMissing
      ? 'Plug it in, or correct modem.port.'
      : 'Add the account to the group that owns it (often dialout).';
    return bad('GSM modem', text, doNext);
  }
}
