import type { FastifyRequest } from 'fastify';
import { z } from 'zod';
import { newProbeSchema, probeCredentialSchema, probeSchema } from '../../../shared/api/probes.ts';
import type { ProbeCredential, ProbeView } from '../../../shared/api/types.ts';
import type { Probe } from '../../records/port.ts';
import { yardIdOf } from '../access/asker.ts';
import type { App } from '../app.ts';
import { audit } from '../audit.ts';
import { factsChanged } from '../factsChanged.ts';
import type { House, WebConfig } from '../house.ts';
import { madeUpProbeId, mqttFacts } from '../probeCredential.ts';
import { ApiProblem } from '../problems/apiProblem.ts';
import { hashToken, newToken } from '../sign-in/tokens.ts';
import { probeViews } from '../views/probeView.ts';
import { answers } from './answers.ts';
import { findProbe } from './find.ts';

const paramsSchema = z.object({ probeId: z.string().min(1).max(200) });

/** Devices that may publish, and their credentials. A secret is shown once; only its hash is kept. */
export function probeRoutes(app: App, house: House): void {
  app.route({
    method: 'GET',
    url: '/api/probes',
    config: { access: 'keeper' },
    schema: { response: answers(z.array(probeSchema).readonly()) },
    handler: async (request) => {
      const yardId = yardIdOf(request);
      return probeViews(house, await house.records.probes.list(yardId));
    },
  });

  app.route({
    method: 'GET',
    url: '/api/probes/:probeId',
    config: { access: 'keeper' },
    schema: { params: paramsSchema, response: answers(probeSchema) },
    handler: async (request) => oneView(house, await findProbe(house, request, request.params.probeId)),
  });

  app.route({
    method: 'POST',
    url: '/api/probes',
    config: { access: 'owner' },
    schema: { summary: 'Enrol a probe', body: newProbeSchema, response: answers(probeCredentialSchema) },
    handler: async (request) => {
      const { label, expectedIntervalSeconds } = request.body;
      const id = request.body.id ?? madeUpProbeId();
      if ((await house.records.probes.get(id)) !== null) throw taken(id);
      const secret = newToken();
      const probe = await house.records.probes.create(
        { id, yardId: yardIdOf(request), label, expectedIntervalSeconds, createdMs: house.clock.nowMs() },
        hashToken(secret),
      );
      await audit(house, request, { action: 'enrolled a probe', target: id, detail: label });
      return credential(house, request, probe, secret);
    },
  });

  app.route({
    method: 'POST',
    url: '/api/probes/:probeId/secret',
    config: { access: 'owner' },
    schema: {
      summary: 'New secret; the old one stops working, a revoked probe may publish again',
      params: paramsSchema,
      response: answers(probeCredentialSchema),
    },
    handler: async (request) => {
      const probe = await findProbe(house, request, request.params.probeId);
      const secret = newToken();
      await house.records.probes.setSecret(probe.id, hashToken(secret));
      await audit(house, request, { action: 'changed a probe secret', target: probe.id });
      return credential(house, request, probe, secret);
    },
  });

  app.route({
    method: 'POST',
    url: '/api/probes/:probeId/revoke',
    config: { access: 'owner' },
    schema: { params: paramsSchema, response: answers(probeSchema) },
    handler: async (request) => {
      const probe = await findProbe(house, request, request.params.probeId);
      await house.records.probes.revoke(probe.id, house.clock.nowMs());
      await audit(house, request, { action: 'revoked a probe', target: probe.id });
      told(house, probe);
      return oneView(house, await findProbe(house, request, probe.id));
    },
  });
}

async function oneView(house: House, probe: Probe): Promise<ProbeView> {
  return (await probeViews(house, [probe]))[0]!;
}

async function credential(
  house: House,
  request: FastifyRequest,
  probe: Probe,
  secret: string,
): Promise<ProbeCredential> {
  told(house, probe);
  return {
    probe: await oneView(house, probe),
    secret,
    mqtt: mqttFacts(reachable(house.config.mqtt, request), probe.yardId, probe.id, secret),
  };
}

/** "All addresses" is none a probe could call: the one this person's browser found us by most likely serves it too. */
function reachable(mqtt: WebConfig['mqtt'], request: FastifyRequest): WebConfig['mqtt'] {
  const isAll = mqtt.host === '0.0.0.0' || mqtt.host === '::';
  return isAll ? { ...mqtt, host: request.hostname } : mqtt;
}

function told(house: House, { id: probeId, yardId }: Probe): void {
  factsChanged(house, { probeId });
  house.live.announce([{ kind: 'probe', probeId, yardId }]);
}

function taken(id: string): ApiProblem {
  const detail = `id is "${id}"; allowed: a name no probe here has or had`;
  return new ApiProblem('conflict', detail, { errors: [{ detail, pointer: '#/id' }] });
}
