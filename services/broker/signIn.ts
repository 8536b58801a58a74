import type { AuthErrorCode, AuthenticateError, Client } from 'aedes';
import type { BaseLogger } from 'pino';
import type { Connections } from './connections.ts';
import type { ProbeCredentials } from './port.ts';
import { createSignInThrottle } from './signInThrottle.ts';

/** CONNACK return codes of MQTT 3.1.1 section 3.2.2.3. */
const unavailable = 3;
const badUserNameOrPassword = 4;

export interface SignInOptions {
  readonly credentials: ProbeCredentials;
  readonly connections: Connections;
  readonly logger: Pick<BaseLogger, 'warn' | 'error'>;
  /** Told the name that was given and why it was turned down. */
  readonly onRefused: (userName: string, reason: string) => void;
}

type Authenticate = (
  client: Client,
  userName: string | undefined,
  password: Buffer | undefined,
  done: (error: AuthenticateError | null, success: boolean | null) => void,
) => void;

/** Lets in probes that show their secret, nobody else. */
export function createSignIn(options: SignInOptions): Authenticate {
  const throttle = createSignInThrottle();

  async function attempt(client: Client, probeId: string, secret: string): Promise<AuthenticateError | null> {
    const address = addressOf(client);
    if (!throttle.mayTry(address, probeId, performance.now())) {
      return refusal(unavailable, 'too many failed sign-ins: wait before trying again');
    }
    const probe = await options.credentials.check(probeId, secret);
    if (probe === null) {
      throttle.failed(address, probeId, performance.now());
      return refusal(badUserNameOrPassword, 'unknown probe, revoked probe or wrong secret');
    }
    throttle.succeeded(address, probeId);
    keepClientIdsApart(client, probe.probeId);
    options.connections.signedIn(client, probe);
    return null;
  }

  return (client, userName = '', password = Buffer.alloc(0), done) => {
    attempt(client, userName, password.toString('utf8')).then(
      (error) => {
        if (error === null) return done(null, true);
        options.onRefused(userName, error.message);
        const context = { probe: userName.slice(0, 100), address: addressOf(client) };
        options.logger.warn(context, `sign-in of a probe refused: ${error.message}`);
        done(error, false);
      },
      (error: unknown) => {
        options.logger.error({ err: error }, 'credentials could not be checked');
        done(refusal(unavailable, 'credentials cannot be checked now'), false);
      },
    );
  };
}

/**
 * A connection takes the place of an older one with the same client id, so a probe that uses another's id would throw it
 * out again and again. With the probe's own name in front, ids of different probes never meet.
 */
function keepClientIdsApart(client: Client, probeId: string): void {
  Object.assign(client, { id: `${probeId} ${client.id}` });
}

function addressOf(client: Client): string {
  return 'remoteAddress' in client.conn ? (client.conn.remoteAddress ?? '') : '';
}

function refusal(returnCode: number, message: string): AuthenticateError {
  return Object.assign(new Error(message), { returnCode: returnCode as AuthErrorCode });
}
