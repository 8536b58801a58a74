import type { FastifyRequest } from 'fastify';
import {
  copiedLimitsSchema,
  copyLimitsSchema,
  limitsSchema,
  saveLimitsSchema,
  undoLimitsSchema,
} from '../../../shared/api/limits.ts';
import { pileParamsSchema } from '../../../shared/api/pilePage.ts';
import { overridesToRestore, RestoreError } from '../../../shared/rules/limitsVersions.ts';
import type { Pile } from '../../../shared/yard/yard.ts';
import { type LimitOverrides, type LimitsVersion, VersionConflict } from '../../records/port.ts';
import { personOf } from '../access/asker.ts';
import type { App } from '../app.ts';
import { audit } from '../audit.ts';
import { checkOverrides } from '../checkOverrides.ts';
import { factsChanged } from '../factsChanged.ts';
import type { House } from '../house.ts';
import { ApiProblem, badField } from '../problems/apiProblem.ts';
import { limitsView } from '../views/limitsView.ts';
import { answers } from './answers.ts';
import { findPile } from './find.ts';

/** Limits of a pile: method defaults plus what was changed, in versions. */
export function limitsRoutes(app: App, house: House): void {
  app.route({
    method: 'GET',
    url: '/api/piles/:pileId/limits',
    config: { access: 'viewer' },
    schema: { params: pileParamsSchema, response: answers(limitsSchema) },
    handler: async (request) => limitsView(house, await findPile(house, request, request.params.pileId)),
  });

  app.route({
    method: 'PUT',
    url: '/api/piles/:pileId/limits',
    config: { access: 'keeper' },
    schema: { params: pileParamsSchema, body: saveLimitsSchema, response: answers(limitsSchema) },
    handler: async (request) => {
      const pile = await findPile(house, request, request.params.pileId);
      await save(house, request, pile, request.body);
      return limitsView(house, pile);
    },
  });

  app.route({
    method: 'POST',
    url: '/api/piles/:pileId/limits/undo',
    config: { access: 'keeper' },
    schema: {
      summary: 'Go back to an earlier version: it is saved again as the next one',
      params: pileParamsSchema,
      body: undoLimitsSchema,
      response: answers(limitsSchema),
    },
    handler: async (request) => {
      const pile = await findPile(house, request, request.params.pileId);
      const { expectedVersion, toVersion, reason } = request.body;
      const overrides = await earlier(house, pile, expectedVersion, toVersion);
      const back = `${reason} (back to version ${toVersion ?? expectedVersion - 1})`;
      await save(house, request, pile, { overrides, expectedVersion, reason: back });
      return limitsView(house, pile);
    },
  });

  app.route({
    method: 'POST',
    url: '/api/piles/:pileId/limits/copy',
    config: { access: 'keeper' },
    schema: {
      summary:
        'Give other piles of the same method what was changed here; all are checked before any is saved',
      params: pileParamsSchema,
      body: copyLimitsSchema,
      response: answers(copiedLimitsSchema),
    },
    handler: async (request) => {
      const from = await findPile(house, request, request.params.pileId);
      const { overrides, version } = await house.records.limits.current(from.id);
      const targets = await targetsOf(house, request, from, request.body.to);
      const reason = `${request.body.reason} (copied from ${from.name}, version ${version})`;
      return copyTo(house, request, targets, { overrides, reason });
    },
  });
}

interface Change {
  readonly overrides: LimitOverrides;
  readonly expectedVersion: number;
  readonly reason: string;
}

/** Checks, saves, leaves a line in the trail and tells whoever judges by it. */
async function save(
  house: House,
  request: FastifyRequest,
  pile: Pile,
  { overrides, expectedVersion, reason }: Change,
): Promise<LimitsVersion> {
  const checked = checkOverrides(house.conditions, pile.method, overrides);
  const by = personOf(request).id;
  const savedMs = house.clock.nowMs();
  const change = { pileId: pile.id, overrides: checked, reason, by, savedMs, expectedVersion };
  const saved = await house.records.limits.save(change);
  await audit(house, request, {
    action: `saved limits version ${saved.version}`,
    target: pile.name,
    detail: `${reason}; ${JSON.stringify(checked)}`,
  });
  factsChanged(house, { pileId: pile.id });
  house.live.announce([{ kind: 'pile', pileId: pile.id, yardId: pile.yardId }]);
  return saved;
}

async function earlier(
  house: House,
  pile: Pile,
  current: number,
  toVersion: number | undefined,
): Promise<LimitOverrides> {
  try {
    return overridesToRestore(await house.records.limits.history(pile.id), current, toVersion);
  } catch (error) {
    if (!(error instanceof RestoreError)) throw error;
    throw new ApiProblem('bad-request', error.message, {
      errors: [{ detail: error.message, pointer: '#/toVersion' }],
    });
  }
}

interface Target {
  readonly pile: Pile;
  readonly expectedVersion: number;
}

/** The piles to copy to. Refuses all when one is of another method, the same pile, named twice or changed meanwhile. */
async function targetsOf(
  house: House,
  request: FastifyRequest,
  from: Pile,
  to: readonly { readonly pileId: string; readonly expectedVersion: number }[],
): Promise<Target[]> {
  const targets: Target[] = [];
  for (const [index, { pileId, expectedVersion }] of to.entries()) {
    const pile = await findPile(house, request, pileId);
    const isTwice = targets.some((target) => target.pile.id === pileId);
    if (pileId === from.id || isTwice)
      throw badField(`to.${index}.pileId`, pileId, 'another pile than this, each once');
    // What a limit means hangs on the defaults around it, and those are the method's.
    if (pile.method !== from.method)
      throw badField(`to.${index}.pileId`, pile.name, `piles of the same method (${from.method})`);
    const { version } = await house.records.limits.current(pileId);
    if (version !== expectedVersion)
      throw new ApiProblem(
        'changed-meanwhile',
        `The limits of ${pile.name} are at version ${version} by now.`,
      );
    targets.push({ pile, expectedVersion });
  }
  return targets;
}

/** Saves pile by pile. What somebody changes in between is left as they made it, and named. */
async function copyTo(
  house: House,
  request: FastifyRequest,
  targets: readonly Target[],
  change: Pick<Change, 'overrides' | 'reason'>,
) {
  const copied: { pileId: string; version: number }[] = [];
  const changedMeanwhile: string[] = [];
  for (const { pile, expectedVersion } of targets) {
    try {
      const { version } = await save(house, request, pile, { ...change, expectedVersion });
      copied.push({ pileId: pile.id, version });
    } catch (error) {
      if (!(error instanceof VersionConflict)) throw error;
      changedMeanwhile.push(pile.id);
    }
  }
  return { copied, changedMeanwhile };
}
