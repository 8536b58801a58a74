import type { Priority } from '../alarms/alarm.ts';
import type { Language } from '../messages/words/languages.ts';
import type { YardId } from './yard.ts';

/** What a signed-in person may do. Each role includes the ones before it. */
export const roles = ['viewer', 'keeper', 'owner'] as const;
export type Role = (typeof roles)[number];

/** Someone who may sign in, be texted, or both. */
export interface Person {
  readonly id: string;
  readonly yardId: YardId;
  /** Sign-in name, lower case. */
  readonly login: string;
  readonly name: string;
  readonly role: Role;
  /** E.164, e.g. `+441632960123`; null when this person is not texted. */
  readonly phone: string | null;
  readonly receivesTexts: boolean;
  /** Least pressing priority this person is texted for. */
  readonly textsFrom: Priority;
  readonly disabled: boolean;
  /** What texts to this person are written in. */
  readonly language: Language;
}
