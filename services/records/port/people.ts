import type { Person, Role } from '../../../shared/yard/people.ts';
import type { YardId } from '../../../shared/yard/yard.ts';

export interface PeopleStore {
  list(yardId: YardId): Promise<Person[]>;
  get(id: string): Promise<Person | null>;
  /** Upper and lower case are the same. */
  byLogin(login: string): Promise<Person | null>;
  /** Of all yards; not those who are disabled. */
  byPhone(phone: string): Promise<Person[]>;
  /** Without a language: the first there is. */
  create(
    person: Omit<Person, 'id' | 'language'> & Partial<Pick<Person, 'language'>>,
    passwordHash: string | null,
  ): Promise<Person>;
  update(id: string, change: Partial<Omit<Person, 'id' | 'yardId'>>): Promise<Person>;
  passwordHash(id: string): Promise<string | null>;
  setPassword(id: string, passwordHash: string): Promise<void>;
  /** Of all yards. */
  count(): Promise<number>;
}

export interface Session {
  readonly tokenHash: string;
  readonly personId: string;
  readonly createdMs: number;
  readonly lastUsedMs: number;
  readonly expiresMs: number;
  /** When the person last proved in it who they are; null when that is not known. */
  readonly confirmedMs: number | null;
}

export interface SessionStore {
  /** Signing in is a proof: it counts as confirmed when it was created. */
  create(session: Omit<Session, 'confirmedMs'>): Promise<void>;
  get(tokenHash: string): Promise<Session | null>;
  touch(tokenHash: string, lastUsedMs: number): Promise<void>;
  /** The person showed their password again. */
  confirm(tokenHash: string, confirmedMs: number): Promise<void>;
  end(tokenHash: string): Promise<void>;
  endAllOf(personId: string): Promise<void>;
  removeExpired(nowMs: number): Promise<number>;
}

/** One-time link: first set-up (no person yet), a password reset, or the demo's sign-in. Used at most once. */
export interface SetupLink {
  readonly tokenHash: string;
  readonly purpose: 'first-setup' | 'set-password' | 'sign-in';
  readonly personId: string | null;
  readonly expiresMs: number;
}

export interface SetupLinkStore {
  create(link: SetupLink): Promise<void>;
  /** Takes the link away and returns it; null when unknown, used or expired. */
  use(tokenHash: string, nowMs: number): Promise<SetupLink | null>;
  peek(tokenHash: string, nowMs: number): Promise<SetupLink | null>;
  removeAll(purpose: SetupLink['purpose']): Promise<void>;
}

/** Read-only link for a wall screen; revocable. */
export interface WallLink {
  readonly id: string;
  readonly yardId: YardId;
  readonly tokenHash: string;
  readonly label: string;
  readonly createdMs: number;
  readonly createdBy: string;
  readonly revokedMs: number | null;
}

export interface WallLinkStore {
  list(yardId: YardId): Promise<WallLink[]>;
  create(link: Omit<WallLink, 'id' | 'revokedMs'>): Promise<WallLink>;
  /** Null when unknown or revoked. */
  byToken(tokenHash: string): Promise<WallLink | null>;
  revoke(id: string, atMs: number): Promise<void>;
}

/** Trail of every change to limits, people and credentials. */
export interface AuditEntry {
  readonly yardId: YardId | null;
  readonly atMs: number;
  readonly by: string | null;
  readonly role: Role | 'system';
  readonly action: string;
  readonly target: string;
  readonly detail: string;
}

export interface AuditStore {
  add(entry: AuditEntry): Promise<void>;
  /** A yard's own entries, newest first. */
  list(yardId: YardId, limit: number): Promise<AuditEntry[]>;
}
