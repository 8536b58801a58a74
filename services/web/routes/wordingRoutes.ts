import type { WordingsView } from '../../../shared/api/types.ts';
import { saveWordingSchema, wordingsSchema } from '../../../shared/api/wordings.ts';
import { checkWording } from '../../../shared/messages/checkWording.ts';
import { type ExampleYard, wordingExamples } from '../../../shared/messages/wordingExamples.ts';
import { type WordingOverrides, wordingsOf } from '../../../shared/messages/wordings.ts';
import type { Yard } from '../../../shared/yard/yard.ts';
import type { WordingsVersion } from '../../records/port.ts';
import { personOf } from '../access/asker.ts';
import type { App } from '../app.ts';
import { audit } from '../audit.ts';
import { factsChanged } from '../factsChanged.ts';
import type { House } from '../house.ts';
import { ApiProblem } from '../problems/apiProblem.ts';
import { peopleNames } from '../views/names.ts';
import { answers } from './answers.ts';
import { findYard } from './find.ts';

/** As long as the token of a real answer link. */
const exampleToken = 'AbCdEfGhIjKlMnOp';

/** What texts say in a yard's own words. The screen checks while somebody types; what is saved is checked here again. */
export function wordingRoutes(app: App, house: House): void {
  app.route({
    method: 'GET',
    url: '/api/wordings',
    config: { access: 'keeper' },
    schema: { summary: "A yard's own wording of texts", response: answers(wordingsSchema) },
    handler: async (request) => {
      const yard = await findYard(house, request);
      return wordingsView(house, yard, await house.records.wordings.current(yard.id));
    },
  });

  app.route({
    method: 'PUT',
    url: '/api/wordings',
    config: { access: 'owner' },
    schema: { body: saveWordingSchema, response: answers(wordingsSchema) },
    handler: async (request) => {
      const yard = await findYard(house, request);
      const { expectedVersion, language, key, template } = request.body;
      const before = await house.records.wordings.current(yard.id);
      if (template !== null) {
        const words = wordingsOf(before.overrides)(language);
        const examples = wordingExamples(key, await exampleYard(house, yard), words);
        refuseProblems(checkWording(key, template, examples).problems);
      }
      const saved = await house.records.wordings.save({
        ...{ yardId: yard.id, overrides: changed(before.overrides, request.body) },
        ...{ by: personOf(request).id, savedMs: house.clock.nowMs(), expectedVersion },
      });
      const action = template === null ? 'took our wording of a text again' : 'worded a text';
      const detail = template ?? '';
      await audit(house, request, { action, target: `${key} (${language})`, detail });
      factsChanged(house);
      return wordingsView(house, yard, saved);
    },
  });
}

function changed(
  before: WordingOverrides,
  {
    language,
    key,
    template,
  }: Pick<ReturnType<typeof saveWordingSchema.parse>, 'language' | 'key' | 'template'>,
): WordingOverrides {
  const { [key]: _, ...others } = before[language] ?? {};
  return { ...before, [language]: template === null ? others : { ...others, [key]: template } };
}

function refuseProblems(problems: readonly string[]): void {
  if (problems.length === 0) return;
  const errors = problems.map((problem) => ({ detail: `template: ${problem}`, pointer: '#/template' }));
  throw new ApiProblem('bad-request', errors[0]!.detail, { errors });
}

async function exampleYard(house: House, yard: Yard): Promise<ExampleYard> {
  const piles = await house.records.piles.list(yard.id);
  return {
    yardName: yard.name,
    temperatureUnit: yard.temperatureUnit,
    piles: piles.filter(({ endedMs }) => endedMs === null).map(({ name, place }) => ({ name, place })),
    link: `${house.publicUrl()}/a/${exampleToken}`,
    canReply: house.config.canReply === true,
  };
}

async function wordingsView(
  house: House,
  yard: Yard,
  { version, overrides, by, savedMs }: WordingsVersion,
): Promise<WordingsView> {
  const nameOf = await peopleNames(house, yard.id);
  return { version, overrides, by: nameOf(by), savedMs, example: await exampleYard(house, yard) };
}
