import { mkdir, writeFile } from 'node:fs/promises';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startSession } from '../../services/web/sign-in/sessions.ts';
import { hashToken } from '../../services/web/sign-in/tokens.ts';
import { startWeb, type Web } from '../../services/web/startWeb.ts';
import { openTestWeb, type TestWeb } from '../../services/web/testing/openTestWeb.ts';
import { chromiumPath, hasChromium, launchBrowser } from '../helpers/browser.ts';
import { describeInBrowser } from '../helpers/requirement.ts';

const password = 'nine damp leaves rustle';
let base: TestWeb;
let web: Web;
let browser: Browser;
let stranger: Server;

/** Written as text: these run in the page, which this program's types know nothing of. */
const signInScript = `fetch('/api/session', {
  method: 'POST',
  headers: { 'x-tilth-request': '1', 'content-type': 'application/json' },
  body: JSON.stringify({ login: 'owner', password: '${password}' }),
}).then((answer) => answer.json())`;

const lookScript = `new Promise((resolve) => {
  const source = new EventSource('/api/live');
  source.addEventListener('tick', async ({ data }) => {
    source.close();
    const { kind } = await (await fetch('/api/session')).json();
    resolve({ kind, tick: JSON.parse(data), cookies: document.cookie });
  });
})`;

const attackScript = (url: string) => `Promise.all([
  { headers: { 'x-tilth-request': '1' } },
  { mode: 'no-cors', headers: { 'content-type': 'text/plain' }, body: '{}' },
].map((init) => fetch('${url}', { method: 'POST', credentials: 'include', ...init }).then(() => 'read', () => 'refused')))`;

const formScript = (url: string) => `{
  const form = Object.assign(document.createElement('form'), { method: 'post', action: '${url}' });
  document.body.append(form);
  form.submit();
}`;

const followScript = `new Promise((resolve) => {
  globalThis.source = new EventSource('/api/live');
  globalThis.ended = new Promise((end) => source.addEventListener('end', () => end(true)));
  source.addEventListener('open', () => resolve(true));
})`;

async function signedIn(): Promise<Page> {
  const page = await (await browser.newContext()).newPage();
  await page.goto(web.url);
  expect(await page.evaluate(signInScript)).toMatchObject({ kind: 'person' });
  return page;
}

describeInBrowser(hasChromium, `no Chromium at ${chromiumPath}`)(
  'a session in a browser over plain HTTP',
  () => {
    beforeAll(async () => {
      base = await openTestWeb();
      await base.records.people.setPassword(base.people.owner.id, await base.house.passwords.hash(password));
      await mkdir(join(base.folder, 'dist'));
      await writeFile(join(base.folder, 'dist/index.html'), '<!doctype html><title>yard</title>');
      web = await startWeb({ ...base.options, config: { ...base.options.config, publicUrl: null } });
      stranger = createServer((_request, response) => {
        response.setHeader('content-type', 'text/html').end('<!doctype html><title>stranger</title>');
      });
      await new Promise<void>((resolve) => stranger.listen(0, '127.0.0.1', resolve));
      browser = await launchBrowser();
    });
    afterAll(async () => {
      await browser?.close();
      stranger?.close();
      await web?.stop();
      await base?.close();
    });

    it('is kept, opens the live events and is out of reach of scripts', async () => {
      const page = await signedIn();
      await page.reload();
      expect(await page.evaluate(lookScript)).toMatchObject({
        kind: 'person',
        tick: { nowMs: base.clock.ms },
        cookies: '',
      });
    });

    it('cannot be used by another site’s page, neither by script nor by form', async () => {
      const page = await signedIn();
      const viewers = await startSession(base.records, base.people.viewer.id, base.clock.ms);
      const target = `${web.url}/api/people/${base.people.viewer.id}/sign-out`;
      await page.goto(`http://127.0.0.1:${(stranger.address() as AddressInfo).port}/`);
      expect(await page.evaluate(attackScript(target))).toEqual(['refused', 'refused']);
      const answer = page.waitForResponse(target);
      await page.evaluate(formScript(target));
      expect((await answer).status()).toBe(403);
      expect(await base.records.sessions.get(hashToken(viewers))).not.toBeNull();
    });

    it('takes its event stream along when it is ended on the server', async () => {
      const page = await signedIn();
      await page.evaluate(followScript);
      await fetch(`${web.url}/api/people/${base.people.owner.id}/sign-out`, {
        method: 'POST',
        headers: { 'x-tilth-request': '1', cookie: `tilth-session=${base.cookies.owner['tilth-session']}` },
      });
      expect(await page.evaluate('ended')).toBe(true);
      expect(await page.evaluate(`fetch('/api/live').then(({ status }) => status)`)).toBe(401);
    });
  },
);
