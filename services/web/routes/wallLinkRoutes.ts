import type { FastifyReply } from 'fastify';
import { z } from 'zod';
import { idSchema } from '../../../shared/api/common.ts';
import type { WallLinkView } from '../../../shared/api/types.ts';
import { createdWallLinkSchema, newWallLinkSchema, wallLinkSchema } from '../../../shared/api/wallLinks.ts';
import type { WallLink } from '../../records/port.ts';
import { personOf, yardIdOf } from '../access/asker.ts';
import type { App } from '../app.ts';
import { audit } from '../audit.ts';
import type { House } from '../house.ts';
import { notFound } from '../problems/apiProblem.ts';
import { clearCookie, setCookie } from '../sign-in/cookies.ts';
import { hashToken, newToken } from '../sign-in/tokens.ts';
import { peopleNames } from '../views/names.ts';
import { answers } from './answers.ts';

/** Read-only links for wall screens. */
export function wallLinkRoutes(app: App, house: House): void {
  app.route({
    method: 'GET',
    url: '/api/wall-links',
    config: { access: 'owner' },
    schema: { response: answers(z.array(wallLinkSchema).readonly()) },
    handler: async (request) => {
      const yardId = yardIdOf(request);
      const nameOfPerson = await peopleNames(house, yardId);
      const links = await house.records.wallLinks.list(yardId);
      return links.map((link) => wallLinkView(link, nameOfPerson));
    },
  });

  app.route({
    method: 'POST',
    url: '/api/wall-links',
    config: { access: 'owner' },
    schema: { body: newWallLinkSchema, response: answers(createdWallLinkSchema) },
    handler: async (request) => {
      const key = newToken();
      const { label } = request.body;
      const person = personOf(request);
      const link = await house.records.wallLinks.create({
        yardId: person.yardId,
        tokenHash: hashToken(key),
        label,
        createdMs: house.clock.nowMs(),
        createdBy: person.id,
      });
      await audit(house, request, { action: 'made a wall link', target: label });
      return { link: wallLinkView(link, () => person.name), url: `${house.publicUrl()}/wall?key=${key}` };
    },
  });

  app.route({
    method: 'POST',
    url: '/api/wall-links/:wallLinkId/revoke',
    config: { access: 'owner' },
    schema: { params: z.object({ wallLinkId: idSchema }), response: answers(wallLinkSchema) },
    handler: async (request) => {
      const { wallLinkId } = request.params;
      const yardId = yardIdOf(request);
      const link = (await house.records.wallLinks.list(yardId)).find(({ id }) => id === wallLinkId);
      if (link === undefined) throw notFound('wall link', 'wallLinkId', wallLinkId);
      const revokedMs = link.revokedMs ?? house.clock.nowMs();
      if (link.revokedMs === null) await house.records.wallLinks.revoke(link.id, revokedMs);
      await house.live.recheck();
      await audit(house, request, { action: 'revoked a wall link', target: link.label });
      return wallLinkView({ ...link, revokedMs }, await peopleNames(house, yardId));
    },
  });
}

/**
 * `/wall?key=...` puts the key into a cookie and sends the browser on to `/wall`, so that the secret does not stay on
 * the screen of a kiosk or in its history. Returns true when it has answered.
 */
export function wallKeyRoute(app: App, house: House, showWall: (reply: FastifyReply) => unknown): void {
  app.route({
    method: 'GET',
    url: '/wall',
    config: { access: 'public', rateLimit: { max: 120, timeWindow: '1 minute' } },
    schema: { hide: true, querystring: z.object({ key: z.string().max(200).optional() }) },
    handler: async (request, reply) => {
      const { key } = request.query;
      if (key === undefined) return showWall(reply);
      const link = await house.records.wallLinks.byToken(hashToken(key));
      const secure = house.secureCookies;
      if (link === null || link.revokedMs !== null) clearCookie(reply, 'wall', secure);
      else setCookie(reply, 'wall', key, { secure });
      return reply.redirect('/wall');
    },
  });
}

function wallLinkView(link: WallLink, nameOfPerson: (by: string | null) => string | null): WallLinkView {
  const { id, label, createdMs, createdBy, revokedMs } = link;
  return { id, label, createdMs, createdBy: nameOfPerson(createdBy) ?? createdBy, revokedMs };
}
