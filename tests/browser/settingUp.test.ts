/** Looking after a yard, by keyboard, in a real browser against the real program: people, duty, gateways, push, probes. */
import { createECDH, randomBytes } from 'node:crypto';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it, vi } from 'vitest';
import type { DutyView, ProbeCredential } from '../../shared/api/types.ts';
import { chromiumPath, hasChromium, launchBrowser } from '../helpers/browser.ts';
import { screensBuilt } from '../helpers/demoProcess.ts';
import { pick, pressOn, tabTo, typeInto } from '../helpers/keyboard.ts';
import { startProbe } from '../helpers/probeByHand.ts';
import { describeInBrowser } from '../helpers/requirement.ts';
import { type Size, sizes, stickingOut, wcagFindings } from '../helpers/screens.ts';
import { openStandInHttp, type StandInHttp } from '../helpers/standInHttp.ts';
import { decryptWebPush } from '../helpers/webPushDecrypt.ts';
import { startYardProcess, type YardProcess } from '../helpers/yardProcess.ts';

const password = 'leaf mould and seaweed';
let browser: Browser;
let folder: string;
let gateway: StandInHttp;
let yard: YardProcess;
let context: BrowserContext;
let page: Page;
let cookies: Awaited<ReturnType<BrowserContext['storageState']>>;
const wanted = { headers: { 'x-tilth-request': '1' } };

const open = (path: string) => page.goto(`${yard.url}/#/${path}`);
const ask = async <T>(path: string) => (await page.request.get(`${yard.url}${path}`)).json() as Promise<T>;
const tell = async (method: 'post' | 'put' | 'patch', path: string, data: object) => {
  const answer = await page.request[method](`${yard.url}${path}`, { ...wanted, data });
  expect(answer.ok(), `${path}: ${await answer.text()}`).toBe(true);
  return answer.json();
};
const soundScreen = async () =>
  expect([...(await wcagFindings(page)), ...(await stickingOut(page))]).toEqual([]);

/** As if every session had shown its password an hour ago. */
function forgetPasswords(): void {
  const records = new DatabaseSync(join(folder, 'yard', 'records.sqlite'));
  records.exec('UPDATE sessions SET confirmed_ms = confirmed_ms - 3600000');
  records.close();
}

async function setUp(): Promise<void> {
  const first = await browser.newContext();
  const owner = { login: 'wren', name: 'Wren', password };
  const site = { name: 'Gannet Row', timeZone: 'Europe/Dublin', temperatureUnit: 'C', altitudeMetres: 0 };
  const made = await first.request.post(`${yard.url}/api/links/first-set-up`, {
    ...wanted,
    data: { token: yard.setUpToken, yard: site, person: owner },
  });
  expect(made.ok()).toBe(true);
  cookies = await first.storageState();
  await first.close();
}

describeInBrowser(
  hasChromium && screensBuilt,
  `no Chromium at ${chromiumPath}, or the screens are not built`,
)('looking after a yard', () => {
  vi.setConfig({ testTimeout: 120_000, hookTimeout: 120_000 });
  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'tilth-manage-'));
    gateway = await openStandInHttp({
      ...{ well: 200, busy: 503, 'refuses-recipient': 410, 'refuses-account': 401 },
    });
    const sms = { url: `http://127.0.0.1:${gateway.port}` };
    const webPush = { contact: 'mailto:keeper@example.org', allowPrivateAddresses: true };
    const flags = ['--sms', JSON.stringify(sms), '--webPush', JSON.stringify(webPush)];
    [yard, browser] = await Promise.all([startYardProcess(join(folder, 'yard'), flags), launchBrowser()]);
    await setUp();
  });
  afterAll(async () => {
    await browser?.close();
    await yard?.stop();
    await gateway?.goAway();
    await rm(folder, { recursive: true, force: true });
  });

  describe.each(Object.keys(sizes) as Size[])('on a %s', (size) => {
    beforeEach(async () => {
      gateway.setMood('well');
      context = await browser.newContext({ storageState: cookies, viewport: sizes[size] });
      page = await context.newPage();
    });
    afterEach(() => context.close());

    it('a phone number is changed only after the password was shown again', async () => {
      await open('manage/people');
      await page.locator('.log li').first().waitFor();
      forgetPasswords();
      await pressOn(page, 'Change Wren');
      await typeInto(page, 'Phone for texts', '+441632960111');
      await pressOn(page, 'Save');
      await page.getByRole('heading', { name: 'Is it you?' }).waitFor();
      await soundScreen();
      await page.keyboard.press('Escape');
      await page.getByText('Type your own password again').waitFor();
      expect((await ask<{ phone: string | null }[]>('/api/people'))[0]!.phone).not.toBe('+441632960111');
      await pressOn(page, 'Save');
      await typeInto(page, 'Password of Wren', 'sea weed and leaf mould');
      await pressOn(page, 'It is me');
      await page.getByText('The current password is not right').waitFor();
      await typeInto(page, 'Password of Wren', password);
      await pressOn(page, 'It is me');
      await page.getByText('texted at +441632960111').waitFor();
      await tell('patch', `/api/people/${(await ask<{ id: string }[]>('/api/people'))[0]!.id}`, {
        ...{ phone: '+441632960123', receivesTexts: true },
      });
    });

    it('an e-mail address is added to a person, with from when on, and taken away', async () => {
      await open('manage/people');
      await pressOn(page, 'Change Wren');
      await pressOn(page, 'E-mail');
      await typeInto(page, 'E-mail address', `wren-${size}@example.org`);
      await pressOn(page, 'Add the e-mail address');
      const row = page.locator('.ways li', { hasText: `wren-${size}@example.org` });
      await row.getByText('from "act today"').waitFor();
      await soundScreen();
      await row.getByRole('button', { name: 'Remove' }).press('Enter');
      await row.waitFor({ state: 'detached' });
    });

    it('the duty plan gets a turn, quiet hours and a daily text, is saved, and shows as a roster', async () => {
      const { version, plan: old } = await ask<DutyView>('/api/duty');
      const bare = { ...old, shifts: [], allWell: null };
      await tell('put', '/api/duty', { expectedVersion: version, plan: bare });
      await open('manage/duty');
      await page.locator('#escalate').waitFor();
      if ((await page.locator('details.add[open]').count()) === 0) await pressOn(page, 'Add a turn');
      await pick(page, 'Who', 'Wren');
      for (const day of ['Saturday', 'Sunday']) {
        await tabTo(page, new RegExp(day));
        await page.keyboard.press('Space');
      }
      await page.locator('input[name="from"]').fill('07:00');
      await page.locator('input[name="to"]').fill('07:00');
      await pressOn(page, 'Add it');
      await page.getByRole('heading', { name: 'The next seven days' }).waitFor();
      await tabTo(page, /^A daily text that all is well/);
      await page.keyboard.press('Space');
      await typeInto(page, 'act today', '45');
      await soundScreen();
      await pressOn(page, 'Save the plan');
      await page.getByText('Saved.').waitFor();
      const { plan } = await ask<DutyView>('/api/duty');
      expect(plan.shifts.at(-1)).toMatchObject({ weekdays: [1, 2, 3, 4, 5], from: '07:00', to: '07:00' });
      expect(plan).toMatchObject({ allWell: { at: '08:00' }, escalateMinutes: { high: 45 } });
      expect(await page.locator('.roster li').count()).toBe(7);
      expect((await page.locator('.roster-words').allTextContents()).join(' ')).toContain(
        '00:00\u201307:00 everybody; 07:00\u201324:00 Wren',
      );
    });

    it('a plan somebody else saved meanwhile is not overwritten', async () => {
      await open('manage/duty');
      await page.locator('#escalate').waitFor();
      await typeInto(page, 'Most texts a person gets', '9');
      const { version, plan } = await ask<DutyView>('/api/duty');
      await tell('put', '/api/duty', {
        expectedVersion: version,
        plan: { ...plan, textsPerHour: 12, shifts: [] },
      });
      await pressOn(page, 'Save the plan');
      await page.getByText('Somebody else saved another plan meanwhile').waitFor();
      await pressOn(page, 'Take theirs');
      await expect.poll(() => page.getByLabel('Most texts a person gets').inputValue()).toBe('12');
    });

    it('a gateway shows how it stands, sends a test, and says what the other side answered', async () => {
      await open('manage/gateways');
      const card = page.locator('.gateway', { hasText: 'Texts by a gateway' });
      const before = gateway.taken.length;
      await pressOn(page, 'Send a test');
      await card.getByText('Taken by the other side:').waitFor();
      expect(gateway.taken.length).toBe(before + 1);
      await card.getByText('Works, as far as can be told').waitFor();
      gateway.setMood('refuses-account');
      await pressOn(page, 'Send a test');
      await card.getByText('Not out, worth trying again:').waitFor();
      await card.getByText('Does not work').waitFor();
      await soundScreen();
      // Without colours too: the edge of what is broken is drawn otherwise.
      const edge = `getComputedStyle(document.querySelector('.gateway-broken')).borderLeftStyle`;
      expect(await page.evaluate(edge)).toBe('double');
      await page.getByText('E-mail: How to set it up').waitFor();
    });

    it('a probe that is refused is told of, with what to do; its health says what comes next', async () => {
      const made: ProbeCredential = await tell('post', '/api/probes', { label: `Stick ${size}` });
      const { port, user, topic } = made.mqtt;
      const probe = await startProbe({ port, user, topic, password: made.secret });
      await open('manage/health');
      const card = page.locator('.health', { hasText: `Stick ${size}` });
      await card.getByText('It has sent nothing yet').waitFor();
      await probe.sendRaw('[{"n":"core"');
      await open('manage/set-aside');
      await page.getByText('What to do:').first().waitFor();
      await page.getByText('Its message is no SenML pack').first().waitFor();
      await soundScreen();
      await probe.send({ core: 50, battery: 34 });
      await open('manage/health');
      await card.getByText('Say which of its sensors stands where').waitFor();
      await card.getByText('34 %').waitFor();
      await card.getByText('signed in now').waitFor();
      await soundScreen();
      await probe.stop();
    });

    it('the yard page says what is not watched, and how to change that', async () => {
      await open('manage/yard');
      await page.getByText('no heartbeat address is set').waitFor();
      await page.getByText('heartbeatUrl').waitFor();
      await soundScreen();
      await typeInto(page, 'Name of the yard', `Gannet Row ${size}`);
      await pressOn(page, 'Save');
      await page.getByText('Saved.').waitFor();
      expect(await page.locator('.yard-name').textContent()).toBe(`Gannet Row ${size}`);
    });

    it('this phone is told by web push, asked for leave only upon a press, and told no more', async () => {
      const pair = createECDH('prime256v1');
      const [p256dh, authSecret] = [pair.generateKeys('base64url'), randomBytes(16)];
      const subscription = {
        endpoint: `http://127.0.0.1:${gateway.port}/push/${size}`,
        keys: { p256dh, auth: authSecret.toString('base64url') },
      };
      // A browser without its maker's push service: everything but the subscribing itself is real.
      await context.grantPermissions(['notifications'], { origin: yard.url });
      await context.addInitScript(standInPush, subscription);
      await open('me');
      await page.getByRole('heading', { name: 'Tell me on this phone' }).waitFor();
      await soundScreen();
      await page.evaluate('navigator.serviceWorker.ready.then(() => true)');
      expect(await page.evaluate('globalThis.asked ?? 0')).toBe(0);
      await pressOn(page, 'Tell me on this phone');
      await page.getByText('This phone is told.').waitFor();
      expect(await page.evaluate('globalThis.asked')).toBe(1);
      await pressOn(page, 'Send it a test');
      await page.getByText('push service took it').waitFor();
      const { body } = gateway.taken.findLast(({ path }) => path === `/push/${size}`)!;
      const payload = decryptWebPush(body, { privateKey: pair.getPrivateKey(), authSecret }).toString();
      expect(await shownByWorker(payload)).toEqual([
        { title: 'Tilthwatch', body: expect.stringContaining('this is a test') },
      ]);
      const moved = `${subscription.endpoint}/moved`;
      await movedByPushService(subscription.endpoint, { ...subscription, endpoint: moved });
      await expect
        .poll(async () => (await ask<{ subscriptions: unknown[] }>('/api/push')).subscriptions)
        .toMatchObject([{ endpoint: moved, toldFrom: 'high' }]);
      await movedByPushService(moved, subscription);
      await expect
        .poll(async () => (await ask<{ subscriptions: unknown[] }>('/api/push')).subscriptions)
        .toMatchObject([{ endpoint: subscription.endpoint }]);
      await page.reload();
      await pressOn(page, 'Tell it no more');
      await page.getByRole('button', { name: 'Tell me on this phone' }).waitFor();
      expect((await ask<{ subscriptions: unknown[] }>('/api/push')).subscriptions).toEqual([]);
    });
  });

  it('opened deep inside without the service, the app says so and how old what it shows is', async () => {
    context = await browser.newContext({ storageState: cookies, viewport: sizes.phone });
    page = await context.newPage();
    await tell('post', '/api/piles', {
      ...{ name: 'Cage 1', place: 'gate', method: 'static-cage', startedMs: Date.now() - 1000 },
    });
    await page.goto(yard.url);
    await page.locator('.pile-list li').waitFor();
    await page.evaluate('navigator.serviceWorker.ready.then(() => true)');
    await expect
      .poll(() => page.evaluate(`caches.match('/last-known-wall').then((found) => found !== undefined)`))
      .toBe(true);
    await open('manage/health');
    await page.locator('.health').first().waitFor();
    await context.setOffline(true);
    await page.reload();
    await page.locator('.lost').getByText('NOT LIVE').waitFor({ timeout: 30_000 });
    expect(await page.locator('.lost').textContent()).toMatch(/What it shows is of \d+ \w+ \d\d:\d\d/);
    await page.locator('.pile-list').getByText('Cage 1').waitFor();
    await context.setOffline(false);
    await page.locator('.health').first().waitFor({ timeout: 30_000 });
    await context.close();
  });
});

/** In the page: subscribing gives what the test made, and asking for leave is counted. */
function standInPush(subscription: { endpoint: string; keys: object }): void {
  const scope = globalThis as unknown as {
    asked?: number;
    PushManager: { prototype: Record<string, unknown> };
    Notification: { requestPermission: () => Promise<string> };
  };
  let current: object | null = null;
  const made = {
    endpoint: subscription.endpoint,
    toJSON: () => ({ ...subscription, expirationTime: null }),
    unsubscribe: async () => {
      current = null;
      return true;
    },
  };
  scope.PushManager.prototype.subscribe = async () => {
    current = made;
    return made;
  };
  scope.PushManager.prototype.getSubscription = async () => current;
  scope.Notification.requestPermission = async () => {
    scope.asked = (scope.asked ?? 0) + 1;
    return 'granted';
  };
}

/** Hands a push to the real service worker and gives the notifications that it shows because of it. */
async function shownByWorker(payload: string): Promise<unknown[]> {
  const devtools = await context.newCDPSession(page);
  const found = new Promise<string>((resolve) => {
    devtools.on('ServiceWorker.workerRegistrationUpdated', ({ registrations }) => {
      const own = registrations.find(({ scopeURL }) => scopeURL.startsWith(yard.url));
      if (own !== undefined) resolve(own.registrationId);
    });
  });
  await devtools.send('ServiceWorker.enable');
  // One browser stands in for phone and laptop, and keeps what it has shown before: that is put away first.
  await page.evaluate(`navigator.serviceWorker.ready
    .then((registration) => registration.getNotifications())
    .then((notifications) => notifications.forEach((notification) => notification.close()))`);
  await expect.poll(() => page.evaluate(shown)).toEqual([]);
  await devtools.send('ServiceWorker.deliverPushMessage', {
    ...{ origin: yard.url, registrationId: await found, data: payload },
  });
  await expect.poll(() => page.evaluate<unknown[]>(shown)).not.toEqual([]);
  // A second one of the same push would come a moment later.
  await page.waitForTimeout(500);
  return page.evaluate<unknown[]>(shown);
}

/** Plays a push service that gives the browser another address: the real worker hears it as browsers say it. */
async function movedByPushService(from: string, to: { endpoint: string; keys: object }): Promise<void> {
  const [worker] = context.serviceWorkers();
  await worker!.evaluate(
    ([oldEndpoint, subscription]) => {
      const event = new Event('pushsubscriptionchange');
      const oldSubscription = { endpoint: oldEndpoint, options: { applicationServerKey: 'key' } };
      const newSubscription = { toJSON: () => subscription };
      Object.assign(event, { oldSubscription, newSubscription, waitUntil: () => {} });
      (globalThis as unknown as EventTarget).dispatchEvent(event);
    },
    [from, to] as const,
  );
}

const shown = `navigator.serviceWorker.ready
  .then((registration) => registration.getNotifications())
  .then((notifications) => notifications.map(({ title, body }) => ({ title, body })))`;
