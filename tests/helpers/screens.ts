import AxeBuilder from '@axe-core/playwright';
import type { BrowserContext, Page } from 'playwright-core';

/** Sizes every screen is held to: a phone in a hand, a laptop, a wall. */
export const sizes = {
  phone: { width: 390, height: 844 },
  laptop: { width: 1366, height: 768 },
  wall: { width: 1920, height: 1080 },
} as const;
export type Size = keyof typeof sizes;

const wcag = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];

/** What axe-core finds against WCAG 2.2 AA on the page as it stands, as short lines; empty when it is fine. */
export async function wcagFindings(page: Page): Promise<string[]> {
  // A bar that stays at the lower edge covers whatever is scrolled below it just then. At the end of the page it stands in
  // its own place, and must cover nothing.
  if ((await page.locator('.thumb-bar').count()) > 0)
    await page.evaluate('scrollTo(0, document.body.scrollHeight)');
  const { violations } = await new AxeBuilder({ page }).withTags(wcag).analyze();
  return violations.flatMap(({ id, nodes }) =>
    nodes.map((node) => `${id}: ${node.target.join(' ')}: ${node.failureSummary?.split('\n')[1]?.trim()}`),
  );
}

/** Gathers what the browser complains of on every page of a context: refused content, failed scripts. */
export function watchComplaints(context: BrowserContext): string[] {
  const complaints: string[] = [];
  context.on('weberror', (error) => complaints.push(error.error().message));
  context.on('console', (message) => {
    if (message.type() === 'error' || /content security policy/i.test(message.text()))
      complaints.push(`${message.text()} ${message.location().url}`);
  });
  return complaints;
}

/** What sticks out of the page sideways: people would have to scroll in two directions. */
export function stickingOut(page: Page): Promise<string[]> {
  return page.evaluate(`(() => {
    const width = document.documentElement.clientWidth;
    if (document.documentElement.scrollWidth <= width) return [];
    return [...document.body.querySelectorAll('*')]
      .filter((element) => element.getBoundingClientRect().right > width + 1)
      .map((element) => element.tagName + '.' + element.getAttribute('class') + ' ' + Math.round(element.getBoundingClientRect().right));
  })()`);
}

/** Signs the owner in by the demo's link and gives the cookies, so that other contexts start signed in. */
export async function signInByLink(context: BrowserContext, link: string): Promise<void> {
  const page = await context.newPage();
  await page.goto(link);
  await page.getByRole('button', { name: 'Open the yard' }).click();
  await page.getByRole('navigation', { name: 'Places' }).waitFor();
  await page.close();
}
