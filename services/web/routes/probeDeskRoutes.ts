import { z } from 'zod';
import {
  probeContactSchema,
  probeHealthSchema,
  recentQuerySchema,
  recentSchema,
} from '../../../shared/api/probeSetUp.ts';
import { yardIdOf } from '../access/asker.ts';
import type { App } from '../app.ts';
import type { House } from '../house.ts';
import { contactView } from '../views/contactView.ts';
import { probeHealthViews } from '../views/probeHealthView.ts';
import { recentView } from '../views/recentView.ts';
import { answers } from './answers.ts';
import { findProbe } from './find.ts';

const paramsSchema = z.object({ probeId: z.string().min(1).max(200) });

/** What is asked while a probe is set up, and how all of them are. */
export function probeDeskRoutes(app: App, house: House): void {
  app.route({
    method: 'GET',
    url: '/api/probes/:probeId/contact',
    config: { access: 'keeper' },
    schema: {
      summary: 'Whether it gets through, and what was refused and why',
      params: paramsSchema,
      response: answers(probeContactSchema),
    },
    handler: async (request) => contactView(house, await findProbe(house, request, request.params.probeId)),
  });

  app.route({
    method: 'GET',
    url: '/api/channels/recent',
    config: { access: 'keeper' },
    schema: {
      summary: 'What the channels of probes said lately, raw and calibrated',
      querystring: recentQuerySchema,
      response: answers(recentSchema),
    },
    handler: async (request) => {
      const { minutes, probeId } = request.query;
      const probes =
        probeId === undefined
          ? await house.records.probes.list(yardIdOf(request))
          : [await findProbe(house, request, probeId)];
      return recentView(house, probes, minutes);
    },
  });

  app.route({
    method: 'GET',
    url: '/api/probe-health',
    config: { access: 'keeper' },
    schema: {
      summary: 'How every probe is, and what to do next about it',
      response: answers(z.array(probeHealthSchema).readonly()),
    },
    handler: async (request) => probeHealthViews(house, yardIdOf(request)),
  });
}
