import type { AddressInfo } from 'node:net';
import { SMTPServer } from 'smtp-server';
import type { Certificate } from './certificate.ts';
import type { Arrived, Mood } from './channelRig.ts';
import { readMail } from './readMail.ts';

export interface StandInSmtp {
  readonly port: number;
  readonly taken: (Arrived & { readonly raw: string })[];
  setMood(mood: Mood): void;
  goAway(): Promise<void>;
  comeBack(): Promise<void>;
}

/** A mail server on this machine that wants a sign-in and takes mail for example.org, in its present mood. */
export async function openStandInSmtp(
  user: string,
  password: string,
  certificate: Certificate | null = null,
): Promise<StandInSmtp> {
  const taken: StandInSmtp['taken'] = [];
  let mood: Mood = 'well';
  const open = (port: number) =>
    listen(createServer({ user, password, certificate, taken, mood: () => mood }), port);
  let server = await open(0);
  const { port } = server.server.address() as AddressInfo;
  return {
    port,
    taken,
    setMood: (next) => {
      mood = next;
    },
    goAway: () => close(server),
    async comeBack() {
      server = await open(port);
    },
  };
}

interface Guts {
  readonly user: string;
  readonly password: string;
  readonly certificate: Certificate | null;
  readonly taken: StandInSmtp['taken'];
  readonly mood: () => Mood;
}

function createServer({ user, password, certificate, taken, mood }: Guts): SMTPServer {
  const server: SMTPServer = new SMTPServer({
    disableReverseLookup: true,
    authOptional: false,
    // Sign-in without encryption is for this machine only.
    allowInsecureAuth: true,
    // Without a certificate of ours it shows the one built in, which nobody can trust, and would warn of that.
    logger: false,
    ...(certificate ?? {}),
    closeTimeout: 100,
    onAuth({ username, password: given }, _session, done) {
      if (mood() === 'refuses-account') return done(reply(535, 'wrong'));
      if (username === user && given === password) done(null, { user });
      else done(reply(535, 'wrong'));
    },
    onRcptTo({ address }, _session, done) {
      const isRefused = mood() === 'refuses-recipient' || !address.endsWith('example.org');
      done(isRefused ? reply(550, 'nobody here') : null);
    },
    async onData(stream, session, done) {
      const pieces: Buffer[] = [];
      for await (const piece of stream) pieces.push(piece as Buffer);
      if (mood() === 'silent') return;
      if (mood() === 'breaks-off') return breakOff(server);
      if (mood() === 'busy') return done(reply(451, 'come back later'));
      const raw = Buffer.concat(pieces).toString();
      taken.push({ to: session.envelope.rcptTo[0]!.address, raw, ...readMail(raw) });
      done(null, 'queued');
    },
  });
  // A client that goes away in the middle is what some tests are about.
  server.on('error', () => {});
  return server;
}

function reply(code: number, text: string): Error {
  return Object.assign(new Error(text), { responseCode: code });
}

interface Connection {
  readonly _socket: { destroy(): void };
}

function breakOff(server: SMTPServer): void {
  for (const connection of server.connections as unknown as Set<Connection>) connection._socket.destroy();
}

function listen(server: SMTPServer, port: number): Promise<SMTPServer> {
  return new Promise((resolve) => server.listen(port, '127.0.0.1', () => resolve(server)));
}

async function close(server: SMTPServer): Promise<void> {
  breakOff(server);
  await new Promise<void>((resolve) => server.close(resolve));
}
