import { connect, createServer } from 'node:net';
import { connect as connectTls } from 'node:tls';
import { bad, type Finding, good } from './finding.ts';

const patienceMs = 4_000;

/** Somewhere a yard needs to reach. */
export interface Place {
  /** What it is: "MQTT broker", "SMS gateway". */
  readonly about: string;
  readonly host: string;
  readonly port: number;
  /** Speak TLS and check the certificate against these (PEM), or, with null, against those the machine trusts. */
  readonly tls: { readonly ca: string | null; readonly cert?: string; readonly key?: string } | null;
  /** Field of the configuration that names it. */
  readonly field: string;
}

/** Opens a connection and closes it again without a word: nothing is sent, nobody is texted. */
export async function reachFinding(place: Place): Promise<Finding> {
  const { about, host, port, field } = place;
  try {
    await knock(place);
    return good(
      about,
      `${host}, port ${port}, can be reached${place.tls === null ? '' : ' and its certificate is right'}`,
    );
  } catch (error) {
    const why = whyNot(error as NodeJS.ErrnoException);
    const text = `${host}, port ${port}: ${why}`;
    return bad(about, text, `See that it runs, that ${field} is right, and that no firewall stands between.`);
  }
}

function knock({ host, port, tls }: Place): Promise<void> {
  return new Promise((resolve, reject) => {
    const socket =
      tls === null
        ? connect({ host, port })
        : connectTls({
            ...{ host, port, servername: /^[\d.:]+$/.test(host) ? '' : host },
            ...(tls.ca === null ? {} : { ca: tls.ca }),
            ...(tls.cert === undefined ? {} : { cert: tls.cert }),
            ...(tls.key === undefined ? {} : { key: tls.key }),
          });
    socket.setTimeout(patienceMs, () => socket.destroy(new Error(`no answer within ${patienceMs / 1000} s`)));
    socket.once(tls === null ? 'connect' : 'secureConnect', () => {
      resolve();
      socket.destroy();
    });
    socket.once('error', reject);
  });
}

function whyNot({ code, message }: NodeJS.ErrnoException): string {
  if (code === 'ECONNREFUSED') return 'nobody listens there';
  if (code === 'ENOTFOUND' || code === 'EAI_AGAIN') return 'no machine of that name is known here';
  if (code === 'EHOSTUNREACH' || code === 'ENETUNREACH') return 'there is no way to it from here';
  if (code !== undefined && /CERT|SELF_SIGNED|UNABLE_TO|ALTNAME/.test(code))
    return `its certificate is not believed (${message})`;
  return message;
}

/** One of our own ports. */
export interface OwnPort {
  readonly about: string;
  readonly host: string;
  readonly port: number;
  readonly field: string;
}

/** Whether a port is free to listen on; taken by our own running program is as it should be. */
export async function portFinding({ about, host, port, field }: OwnPort, isOurs: boolean): Promise<Finding> {
  if (port === 0) return good(about, 'takes any free port');
  const code = await tryListening(host, port);
  if (code === null)
    return isOurs
      ? bad(
          about,
          `port ${port} is free although the yard runs`,
          `Was ${field} changed since it was started? Start it again.`,
        )
      : good(about, `port ${port} of ${host} is free`);
  if (code === 'EADDRINUSE') {
    if (isOurs) return good(about, `port ${port} of ${host} is in use by the running yard`);
    return bad(
      about,
      `port ${port} of ${host} is taken by another program`,
      `Stop that one, or set ${field} to another port.`,
    );
  }
  if (code === 'EADDRNOTAVAIL')
    return bad(
      about,
      `${host} is not an address of this machine`,
      `Set the host beside ${field} to one that is, or to 0.0.0.0 for all.`,
    );
  if (code === 'EACCES')
    return bad(
      about,
      `port ${port} needs more rights than this account has`,
      `Set ${field} to a port above 1023.`,
    );
  return bad(about, `port ${port} of ${host} cannot be used (${code})`, `See ${field}.`);
}

function tryListening(host: string, port: number): Promise<string | null> {
  return new Promise((resolve) => {
    const server = createServer();
    server.once('error', (error: NodeJS.ErrnoException) => resolve(error.code ?? error.message));
    server.listen(port, host, () => server.close(() => resolve(null)));
  });
}
