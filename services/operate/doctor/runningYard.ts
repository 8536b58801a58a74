import { request as requestHttp } from 'node:http';
import { request as requestHttps } from 'node:https';
import { z } from 'zod';
import { bad, type Finding, good } from './finding.ts';

const patienceMs = 4_000;
const readinessSchema = z.object({
  ready: z.boolean(),
  checks: z.array(z.object({ name: z.string(), ready: z.boolean(), text: z.string() })),
});

/** What a running yard on this machine says of itself; null when none answers there. */
export async function readinessAt(
  host: string,
  port: number,
  overTls: boolean,
): Promise<z.infer<typeof readinessSchema> | null> {
  // "All addresses" is none to call: this machine's own is.
  const called = host === '0.0.0.0' || host === '::' ? '127.0.0.1' : host;
  const body = await get({ host: called, port, path: '/readyz' }, overTls).catch(() => null);
  if (body === null) return null;
  try {
    return readinessSchema.parse(JSON.parse(body));
  } catch {
    return null;
  }
}

export function readinessFindings(answer: z.infer<typeof readinessSchema>): Finding[] {
  const notReady = answer.checks.filter(({ ready }) => !ready);
  if (notReady.length === 0) return [good('running yard', 'it runs and every part is ready')];
  return notReady.map(({ name, text }) =>
    bad('running yard', `${name} is not ready: ${text}`, 'See its log.'),
  );
}

/** Our own certificate is looked at elsewhere, and names this machine by another name than we call it here. */
function get(where: { host: string; port: number; path: string }, overTls: boolean): Promise<string> {
  return new Promise((resolve, reject) => {
    const options = { ...where, timeout: patienceMs, rejectUnauthorized: false };
    const request = (overTls ? requestHttps : requestHttp)(options, (response) => {
      let body = '';
      response.setEncoding('utf8').on('data', (piece: string) => {
        body += piece;
      });
      response.on('end', () => resolve(body)).on('error', reject);
    });
    request.on('timeout', () => request.destroy(new Error('no answer')));
    request.on('error', reject).end();
  });
}
