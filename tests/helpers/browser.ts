import { existsSync } from 'node:fs';
import { type Browser, chromium } from 'playwright-core';

/** Debian's own browser; Playwright's download is never used. */
export const chromiumPath = '/usr/bin/chromium';
export const hasChromium = existsSync(chromiumPath);

/** Headless Chromium that makes no connections of its own. */
export function launchBrowser(): Promise<Browser> {
  const quiet = [
    '--disable-quic',
    '--no-first-run',
    '--disable-background-networking',
    '--disable-component-update',
    '--disable-sync',
  ];
  return chromium.launch({
    executablePath: chromiumPath,
    headless: true,
    args: ['--no-sandbox', '--disable-gpu', ...quiet],
  });
}
