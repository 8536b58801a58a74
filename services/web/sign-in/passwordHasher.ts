import { argon2, randomBytes, timingSafeEqual } from 'node:crypto';
import { promisify } from 'node:util';
import { formatPhc, type HashParameters, parsePhc } from './phc.ts';

const argon2Async = promisify(argon2);

/** OWASP password storage sheet: Argon2id with 19 MiB, 2 passes, 1 lane is its headline minimum. */
export const owaspParameters: HashParameters = { memoryKibibytes: 19_456, passes: 2, lanes: 1 };

const saltBytes = 16;
const tagBytes = 32;

export interface PasswordHasher {
  /** PHC string of a new password. */
  hash(password: string): Promise<string>;
  /**
   * Whether the password is right. Null (no such account, or no password yet) costs the same time and is never right,
   * so that an answer's delay does not tell which accounts exist.
   */
  verify(password: string, phc: string | null): Promise<boolean>;
  /** True when the stored hash is weaker than what is used now: hash anew after the next good sign-in. */
  isOutdated(phc: string): boolean;
}

type Derive = (password: string, salt: Buffer, parameters: HashParameters) => Promise<Buffer>;

/**
 * Hashes at most `atOnce` passwords at a time: each takes 19 MiB and a thread, and a flood of sign-ins must not starve
 * the rest of a small machine.
 */
export function createPasswordHasher(
  parameters = owaspParameters,
  atOnce = 2,
  derive: Derive = deriveWithArgon2,
): PasswordHasher {
  const takeTurn = createTurns(atOnce);
  const hash = async (password: string) => {
    const salt = randomBytes(saltBytes);
    return formatPhc(parameters, salt, await takeTurn(() => derive(password, salt, parameters)));
  };
  const standIn = formatPhc(parameters, randomBytes(saltBytes), randomBytes(tagBytes));
  return {
    hash,
    async verify(password, phc) {
      const stored = parsePhc(phc ?? standIn);
      if (stored === null) throw new Error('a stored password hash is damaged');
      const derived = await takeTurn(() => derive(password, stored.salt, stored.parameters));
      return timingSafeEqual(derived, stored.hash) && phc !== null;
    },
    isOutdated(phc) {
      const stored = parsePhc(phc);
      return stored === null || !sameParameters(stored.parameters, parameters);
    },
  };
}

const deriveWithArgon2: Derive = (password, salt, parameters) =>
  argon2Async('argon2id', {
    // One typed character must be one byte string on every device: accents composed the same way (RFC 8265).
    message: password.normalize('NFC'),
    nonce: salt,
    memory: parameters.memoryKibibytes,
    passes: parameters.passes,
    parallelism: parameters.lanes,
    tagLength: tagBytes,
  });

function sameParameters(a: HashParameters, b: HashParameters): boolean {
  return a.memoryKibibytes === b.memoryKibibytes && a.passes === b.passes && a.lanes === b.lanes;
}

/** Runs tasks in order of asking, at most `atOnce` at a time. */
function createTurns(atOnce: number): <T>(task: () => Promise<T>) => Promise<T> {
  let running = 0;
  const waiting: (() => void)[] = [];
  return async (task) => {
    if (running >= atOnce) await new Promise<void>((resolve) => waiting.push(resolve));
    else running += 1;
    try {
      return await task();
    } finally {
      const next = waiting.shift();
      if (next === undefined) running -= 1;
      else next();
    }
  };
}
