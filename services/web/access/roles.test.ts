import Fastify from 'fastify';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Role } from '../../../shared/yard/people.ts';
import { openTestWeb, type TestWeb } from '../testing/openTestWeb.ts';
import type { Access } from './asker.ts';
import { guardRoutes } from './guard.ts';

let web: TestWeb;
beforeAll(async () => {
  web = await openTestWeb();
});
afterAll(() => web.close());

/** Least access of every route, by hand: a route that is added or moved must be written down here too. */
const expected: Readonly<Record<string, Access>> = {
  'GET /': 'public',
  'GET /*': 'public',
  'GET /a/:token': 'public',
  'POST /a/:token': 'public',
  'GET /wall': 'public',
  'GET /healthz': 'public',
  'GET /readyz': 'public',
  'GET /metrics': 'public',
  'GET /api/openapi.json': 'public',
  'GET /api/session': 'public',
  'POST /api/session': 'public',
  'DELETE /api/session': 'public',
  'POST /api/links/look': 'public',
  'POST /api/links/sign-in': 'public',
  'POST /api/links/set-password': 'public',
  'POST /api/links/first-set-up': 'public',
  'GET /api/wall': 'wall',
  'GET /api/live': 'wall',
  'GET /api/yard': 'wall',
  'POST /api/session/password': 'viewer',
  'POST /api/session/confirm': 'viewer',
  'GET /api/piles': 'viewer',
  'GET /api/piles/:pileId/page': 'viewer',
  'GET /api/piles/:pileId/series': 'viewer',
  'GET /api/piles/:pileId/journal': 'viewer',
  'GET /api/piles/:pileId/outlook': 'viewer',
  'GET /api/piles/:pileId/expected': 'viewer',
  'GET /api/piles/:pileId/form': 'viewer',
  'GET /api/journal/:entryId/photo': 'viewer',
  'GET /api/piles/:pileId/limits': 'viewer',
  'POST /api/piles/:pileId/replay': 'viewer',
  'GET /api/piles/:pileId/past': 'viewer',
  'GET /api/piles/:pileId/record': 'viewer',
  'GET /api/records': 'viewer',
  'GET /api/yard/map': 'viewer',
  'PUT /api/yard/map': 'keeper',
  'PUT /api/records/rule': 'keeper',
  'GET /api/alarms': 'viewer',
  'GET /api/alarms/:alarmId': 'viewer',
  'GET /api/alarms/:alarmId/history': 'viewer',
  'GET /api/placements': 'viewer',
  'GET /api/methods': 'viewer',
  'GET /api/calibrations': 'viewer',
  'POST /api/piles': 'keeper',
  'PATCH /api/piles/:pileId': 'keeper',
  'POST /api/piles/:pileId/end': 'keeper',
  'POST /api/piles/:pileId/journal': 'keeper',
  'PUT /api/piles/:pileId/plan': 'keeper',
  'POST /api/journal/:entryId/take-back': 'keeper',
  'PUT /api/journal/:entryId/photo': 'keeper',
  'PUT /api/piles/:pileId/limits': 'keeper',
  'POST /api/piles/:pileId/limits/undo': 'keeper',
  'POST /api/piles/:pileId/limits/copy': 'keeper',
  'POST /api/alarms/:alarmId/acknowledge': 'keeper',
  'POST /api/alarms/:alarmId/shelve': 'keeper',
  'POST /api/alarms/:alarmId/unshelve': 'keeper',
  'POST /api/alarms/:alarmId/reset': 'keeper',
  'POST /api/placements': 'keeper',
  'POST /api/placements/:placementId/end': 'keeper',
  'PUT /api/calibrations': 'keeper',
  'GET /api/probes': 'keeper',
  'GET /api/probes/:probeId': 'keeper',
  'GET /api/probes/:probeId/contact': 'keeper',
  'GET /api/channels/recent': 'keeper',
  'GET /api/probe-health': 'keeper',
  'GET /api/messages': 'keeper',
  'GET /api/channels': 'keeper',
  'POST /api/channels/:channel/check': 'owner',
  'POST /api/channels/:channel/test': 'owner',
  'GET /api/push': 'viewer',
  'POST /api/push': 'viewer',
  'POST /api/push/:subscriptionId/test': 'viewer',
  'DELETE /api/push/:subscriptionId': 'viewer',
  'GET /api/report': 'keeper',
  'POST /api/messages/test': 'viewer',
  'GET /api/quarantine': 'keeper',
  'GET /api/service': 'keeper',
  'POST /api/alarms/:alarmId/take-out-of-service': 'owner',
  'POST /api/alarms/:alarmId/return-to-service': 'owner',
  'PATCH /api/yard': 'owner',
  'GET /api/settings': 'owner',
  'POST /api/probes': 'owner',
  'POST /api/probes/:probeId/secret': 'owner',
  'POST /api/probes/:probeId/revoke': 'owner',
  'GET /api/people': 'owner',
  'POST /api/people': 'owner',
  'PATCH /api/people/:personId': 'owner',
  'POST /api/people/:personId/password-link': 'owner',
  'POST /api/people/:personId/sign-out': 'owner',
  'GET /api/duty': 'viewer',
  'PUT /api/duty': 'owner',
  'GET /api/wordings': 'keeper',
  'PUT /api/wordings': 'owner',
  'GET /api/contact-ways': 'owner',
  'POST /api/people/:personId/contact-ways': 'owner',
  'DELETE /api/contact-ways/:wayId': 'owner',
  'GET /api/wall-links': 'owner',
  'POST /api/wall-links': 'owner',
  'POST /api/wall-links/:wallLinkId/revoke': 'owner',
  'GET /api/audit': 'owner',
};

const askers = ['nobody', 'wall', 'viewer', 'keeper', 'owner'] as const;
const allowedFrom: Readonly<Record<Access, number>> = { public: 0, wall: 1, viewer: 2, keeper: 3, owner: 4 };

describe('who may use which route', () => {
  it('is written down for every route there is, and for none that is not', () => {
    const declared = Object.fromEntries(web.app.accessList().map(({ route, access }) => [route, access]));
    expect(declared).toEqual(expected);
  });

  const guarded = Object.entries(expected).filter(([, access]) => access !== 'public');
  it.each(guarded)('%s lets in %s and above, nobody below', async (route, access) => {
    const [method, url] = route.split(' ') as ['GET', string];
    for (const [index, asker] of askers.entries()) {
      if (url === '/api/live' && index >= allowedFrom[access]) continue;
      const { statusCode } = await web.call(asker, method, url.replaceAll(/:[A-Za-z]+/g, 'none-such'));
      const refused = statusCode === (asker === 'nobody' ? 401 : 403);
      expect({ asker, refused }).toEqual({ asker, refused: index < allowedFrom[access] });
    }
  });

  it('cannot be left out: a route that does not say it stops the start', () => {
    const app = Fastify();
    guardRoutes(app, web.house);
    expect(() => app.get('/forgotten', () => 'open to all')).toThrow(/config\.access/);
  });

  it.each(['viewer', 'keeper', 'owner'] satisfies Role[])('ends for a disabled %s at once', async (role) => {
    const other = await openTestWeb();
    await other.records.people.update(other.people[role].id, { disabled: true });
    expect((await other.call(role, 'GET', '/api/piles')).statusCode).toBe(401);
    await other.close();
  });
});
