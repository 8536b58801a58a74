import type { SessionView } from '../../../shared/api/types.ts';
import type { Asker } from '../access/asker.ts';
import type { House } from '../house.ts';
import { yardView } from './pilePage.ts';

/** Who is asking, for the screens to start from. */
export async function sessionView(house: House, asker: Asker): Promise<SessionView> {
  const yard = asker.kind === 'none' ? null : await house.records.yards.get(yardIdOfAsker(asker));
  return {
    kind: asker.kind,
    person: asker.kind === 'person' ? personIn(asker) : null,
    yard: yard === null ? null : yardView(yard),
    firstSetUpNeeded: (await house.records.people.count()) === 0,
    nowMs: house.clock.nowMs(),
  };
}

function yardIdOfAsker(asker: Exclude<Asker, { kind: 'none' }>): string {
  return asker.kind === 'person' ? asker.person.yardId : asker.link.yardId;
}

function personIn({ person }: Extract<Asker, { kind: 'person' }>): SessionView['person'] {
  const { id, login, name, role } = person;
  return { id, login, name, role };
}
