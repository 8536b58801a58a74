import { z } from 'zod';
import { doneSchema } from '../../../shared/api/common.ts';
import { pileParamsSchema } from '../../../shared/api/pilePage.ts';
import {
  chooseRuleSchema,
  heatRecordSchema,
  recordStandingSchema,
  recordsQuerySchema,
} from '../../../shared/api/records.ts';
import { ruleSetsFor } from '../../../shared/compost/sanitisation/ruleSets.ts';
import { yardIdOf } from '../access/asker.ts';
import type { App } from '../app.ts';
import { audit } from '../audit.ts';
import type { House } from '../house.ts';
import { badField } from '../problems/apiProblem.ts';
import { chooseRule, heatRecordView, recordStanding } from '../views/recordView.ts';
import { answers } from './answers.ts';
import { findPile, findYard } from './find.ts';

/** Heat records for people who must show them: a pile's own with its evidence, and where each pile stands. */
export function recordRoutes(app: App, house: House): void {
  app.route({
    method: 'GET',
    url: '/api/piles/:pileId/record',
    config: { access: 'viewer' },
    schema: {
      summary: 'A pile’s readings held against every published rule that may apply to it, with the evidence',
      params: pileParamsSchema,
      response: answers(heatRecordSchema),
    },
    handler: async (request) => {
      const pile = await findPile(house, request, request.params.pileId);
      return heatRecordView(house, pile, await findYard(house, request));
    },
  });

  app.route({
    method: 'GET',
    url: '/api/records',
    config: { access: 'viewer' },
    schema: { querystring: recordsQuerySchema, response: answers(z.array(recordStandingSchema).readonly()) },
    handler: async (request) => {
      const yard = await findYard(house, request);
      const standings = [];
      // One after another: each reads a pile's whole life, and other people want answers meanwhile.
      for (const pileId of request.query.piles)
        standings.push(await recordStanding(house, await findPile(house, request, pileId), yard));
      return standings;
    },
  });

  app.route({
    method: 'PUT',
    url: '/api/records/rule',
    config: { access: 'keeper' },
    schema: {
      summary: 'The rule this yard goes by for piles of a method',
      body: chooseRuleSchema,
      response: answers(doneSchema),
    },
    handler: async (request) => {
      const { method, ruleId } = request.body;
      const offered = ruleSetsFor(method).map(({ id }) => id);
      if (!offered.includes(ruleId)) throw badField('ruleId', ruleId, offered.join(', '));
      await chooseRule(house, yardIdOf(request), method, ruleId);
      await audit(house, request, {
        action: 'chose the rule of heat records',
        target: method,
        detail: ruleId,
      });
      return { done: true as const };
    },
  });
}
