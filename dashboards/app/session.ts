import { signal } from '@preact/signals';
import type { SessionView } from '../../shared/api/types.ts';
import { type Role, roles } from '../../shared/yard/people.ts';
import { api, Refusal } from '../common/api.ts';
import { showAs } from '../common/format.ts';

/** Who is signed in; null until the service has said. */
export const session = signal<SessionView | null>(null);

/** Takes over a session the service told of (after sign-in or on start). */
export function takeSession(view: SessionView): void {
  session.value = view;
  if (view.yard) showAs(view.yard);
}

export async function fetchSession(): Promise<void> {
  takeSession(await api.get<SessionView>('/api/session'));
}

/** Whether the signed-in person may do what a role may. */
export function mayAct(role: Role): boolean {
  const own = session.value?.person?.role;
  return own !== undefined && roles.indexOf(own) >= roles.indexOf(role);
}

/** Text of any failure, for showing; a lost session also brings the sign-in page back. */
export function failureText(error: unknown): string {
  if (error instanceof Refusal && error.problem.status === 401 && session.value?.person) void fetchSession();
  return error instanceof Error ? error.message : String(error);
}
