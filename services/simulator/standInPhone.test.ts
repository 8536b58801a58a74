import { afterEach, beforeEach, expect, test } from 'vitest';
import { type StandInPhone, startStandInPhone } from './standInPhone.ts';

let phone: StandInPhone;
beforeEach(async () => {
  phone = await startStandInPhone();
});
afterEach(() => phone.stop());

const gets = (text: string, id = '1') =>
  fetch(phone.gatewayUrl, { method: 'POST', body: JSON.stringify({ to: '+441632960123', text, id }) });
const replies = (fields: Record<string, string>, headers: Record<string, string> = {}) =>
  fetch(`${phone.url}/reply`, {
    method: 'POST',
    body: new URLSearchParams(fields),
    headers,
    redirect: 'manual',
  });
const page = async () => (await fetch(phone.url)).text();

test('shows texts, newest first, once each, as text and not as markup', async () => {
  await gets('<b>core too hot</b> http://y.test/a/b');
  await gets('again', '1');
  const shown = await page();
  expect(phone.texts).toHaveLength(1);
  expect(shown).not.toContain('<b>core');
  expect(shown).toContain('<a href="http://y.test/a/b">');
  expect(shown).not.toContain('<form');
});

test('texts back what somebody writes, from the number that was texted, and shows it', async () => {
  const told: string[] = [];
  phone.answerTo(async (from, text) => void told.push(`${from} ${text}`));
  await gets('core too hot K7');
  expect(await page()).toContain('<form');
  expect((await replies({ from: '+441632960123', text: ' seen K7 ' })).status).toBe(303);
  await replies({ from: '+441632960999', text: 'seen K7' });
  await replies({ from: '+441632960123', text: ' ' });
  const strange = { origin: 'http://other.test' };
  expect((await replies({ from: '+441632960123', text: 'seen K7' }, strange)).status).toBe(403);
  expect(told).toEqual(['+441632960123 seen K7']);
  expect(await page()).toContain('<li class="own"><p>seen K7</p>');
});
