import type { Page } from 'playwright-core';

/** What has the focus: its name as a person would say it, and whether one can see that it has it. */
interface Focused {
  readonly name: string;
  readonly visible: boolean;
}

const focusedScript = `(() => {
  const element = document.activeElement;
  // A heading that a new screen has put the focus on is read out, but is no stop of Tab.
  if (element === document.body || element.tabIndex < 0) return null;
  const name = element.getAttribute('aria-label') ?? element.labels?.[0]?.textContent ?? element.textContent ?? '';
  const { outlineStyle, outlineWidth } = getComputedStyle(element);
  return { name: name.trim(), visible: outlineStyle !== 'none' && parseFloat(outlineWidth) >= 2 };
})()`;

const mostSteps = 300;

/**
 * Presses Tab until something with this name has the focus. Throws when nothing has, or when the focus cannot be seen on
 * the way: a keyboard that moves something invisible is no keyboard.
 */
export async function tabTo(page: Page, name: string | RegExp): Promise<void> {
  const passed: string[] = [];
  for (let step = 0; step < mostSteps; step += 1) {
    await page.keyboard.press('Tab');
    const focused = (await page.evaluate(focusedScript)) as Focused | null;
    if (focused === null) continue;
    if (!focused.visible) throw new Error(`the focus on "${focused.name}" cannot be seen`);
    if (typeof name === 'string' ? focused.name === name : name.test(focused.name)) return;
    passed.push(focused.name.slice(0, 30));
  }
  throw new Error(`no "${name}" is reached by Tab; passed: ${[...new Set(passed)].join(' | ')}`);
}

/** Goes to a field by its label and types into it, replacing what is there. */
export async function typeInto(page: Page, label: string, text: string): Promise<void> {
  await tabTo(page, new RegExp(`^${label}`));
  await page.keyboard.press('ControlOrMeta+a');
  await page.keyboard.type(text);
}

/** Goes to a list by its label and picks a choice by typing its first letters. */
export async function pick(page: Page, label: string, letters: string): Promise<void> {
  await tabTo(page, new RegExp(`^${label}`));
  await page.keyboard.type(letters);
}

/** Goes to a button, link or fold and presses it. */
export async function pressOn(page: Page, name: string | RegExp): Promise<void> {
  await tabTo(page, name);
  await page.keyboard.press('Enter');
}
