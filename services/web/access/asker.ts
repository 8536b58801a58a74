import type { FastifyRequest } from 'fastify';
import type { Person, Role } from '../../../shared/yard/people.ts';
import type { WallLink } from '../../records/port.ts';
import { ApiProblem } from '../problems/apiProblem.ts';

/** Who a request comes from. */
export type Asker =
  | { readonly kind: 'none' }
  | { readonly kind: 'person'; readonly person: Person; readonly sessionHash: string }
  | { readonly kind: 'wall'; readonly link: WallLink };

/** What a route asks for: nobody in particular, a wall link or any person, or at least a role. */
export type Access = 'public' | 'wall' | Role;

declare module 'fastify' {
  interface FastifyContextConfig {
    /** Every route must say it; the service refuses to start when one does not. */
    access?: Access;
  }
  interface FastifyRequest {
    asker: Asker;
  }
}

const rank: Readonly<Record<Role, number>> = { viewer: 1, keeper: 2, owner: 3 };

/** Whether this asker may use a route of this access. */
export function mayUse(asker: Asker, access: Access): boolean {
  if (access === 'public') return true;
  if (asker.kind === 'none') return false;
  if (access === 'wall') return true;
  return asker.kind === 'person' && rank[asker.person.role] >= rank[access];
}

/** The person asking; routes for persons only call it. */
export function personOf(request: FastifyRequest): Person {
  if (request.asker.kind === 'person') return request.asker.person;
  throw new ApiProblem('not-signed-in', 'This needs a person who is signed in.');
}

/** The yard the asker belongs to: everything a route touches must be of this yard. */
export function yardIdOf(request: FastifyRequest): string {
  const { asker } = request;
  if (asker.kind === 'wall') return asker.link.yardId;
  return personOf(request).yardId;
}
