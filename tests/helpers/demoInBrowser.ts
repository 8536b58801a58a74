import type { Browser, BrowserContext } from 'playwright-core';
import { launchBrowser } from './browser.ts';
import { type DemoProcess, startDemoProcess } from './demoProcess.ts';
import { signInByLink } from './screens.ts';

/** The demo yard with a browser beside it, and what a context needs to start signed in as its owner. */
export interface DemoInBrowser {
  readonly demo: DemoProcess;
  readonly browser: Browser;
  readonly cookies: Awaited<ReturnType<BrowserContext['storageState']>>;
}

/** Starts both. On a busy machine this takes a minute or two: give the hook that calls it `demoStartMs`. */
export async function openDemoInBrowser(): Promise<DemoInBrowser> {
  const [demo, browser] = await Promise.all([startDemoProcess(), launchBrowser()]);
  const first = await browser.newContext();
  await signInByLink(first, demo.signInLink);
  const cookies = await first.storageState();
  await first.close();
  return { demo, browser, cookies };
}

export const demoStartMs = 180_000;
