import type { LiveChangeEvent } from '../../../shared/api/types.ts';
import { type Access, type Asker, mayUse } from '../access/asker.ts';

/** Least role that hears of each kind of change: the same that may fetch it. */
const accessOf: Readonly<Record<LiveChangeEvent['kind'], Access>> = {
  pile: 'wall',
  alarm: 'wall',
  yard: 'wall',
  probe: 'keeper',
  messages: 'keeper',
  quarantine: 'keeper',
  people: 'owner',
};

export function mayHear(asker: Asker, change: LiveChangeEvent): boolean {
  return mayUse(asker, accessOf[change.kind]);
}
