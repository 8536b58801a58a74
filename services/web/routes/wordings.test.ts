import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { openTestWeb, type TestWeb } from '../testing/openTestWeb.ts';

let web: TestWeb;
beforeEach(async () => {
  web = await openTestWeb();
});
afterEach(() => web.close());

const save = (template: string | null, expectedVersion = 0, more: object = {}) =>
  web.call('owner', 'PUT', '/api/wordings', {
    ...{ expectedVersion, language: 'en', key: 'alarm.text', template },
    ...more,
  });

describe("a yard's own wording", () => {
  it('starts as ours, is saved by an owner, kept beside the others, and taken back', async () => {
    const before = (await web.call('keeper', 'GET', '/api/wordings')).json();
    expect(before).toMatchObject({
      version: 0,
      overrides: {},
      example: { yardName: 'Test Yard', piles: [] },
    });
    const template = 'Hof: {name} {what}[ {value}]. {action} {answer}';
    expect((await save(template)).json()).toMatchObject({ version: 1, by: 'Some owner' });
    const german = { language: 'de', key: 'alarm.nextPerson' };
    const both = (await save('{names} schläft.', 1, german)).json();
    expect(both.overrides).toEqual({
      en: { 'alarm.text': template },
      de: { 'alarm.nextPerson': '{names} schläft.' },
    });
    expect((await save(null, 2)).json().overrides.en).toEqual({});
    expect((await save(null, 2)).json()).toMatchObject({ code: 'changed-meanwhile' });
    const [last] = (await web.call('owner', 'GET', '/api/audit')).json();
    expect(last).toMatchObject({ target: 'alarm.text (en)' });
  });

  it.each([
    ['{name}: {what}. {answer}', '{action} is missing: what to do first must always be said'],
    ['{name}: {what}. [{action}] {answer}', '{action} stands in [brackets]'],
    [
      '{name}: {what}. {action} {answer} {weather}',
      '{weather} is not known here; allowed: {opening} {place}',
    ],
    ['{name}: {what}. {action} {answer', '{ and } around one name'],
    [`${'Please be careful. '.repeat(5)}{name}: {what}. {action} {answer}`, 'it is too long'],
    ['🔥 {name}: {what}. {action} {answer}', '🔥: a text message cannot hold this'],
    ['  ', 'it is empty'],
  ])('is refused when it cannot do its work: %s', async (template, why) => {
    const answer = await save(template);
    expect(answer.statusCode).toBe(400);
    expect(answer.json().errors[0]).toMatchObject({
      pointer: '#/template',
      detail: expect.stringContaining(why),
    });
    expect((await web.records.wordings.current(web.yard.id)).version).toBe(0);
  });
});
