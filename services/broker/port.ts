/** Who signed in. */
export interface SignedInProbe {
  /** DEV URN (RFC 9039); also the MQTT user name. */
  readonly probeId: string;
  readonly yardId: string;
}

/** Who may sign in. */
export interface ProbeCredentials {
  /** Null when the probe is unknown, revoked or the secret is wrong: the broker tells a stranger no more than that. */
  check(probeId: string, secret: string): Promise<SignedInProbe | null>;
  /** Whether a probe that signed in earlier may stay. */
  isInService(probeId: string): Promise<boolean>;
}

/** Counts since the start, and who is connected now. */
export interface BrokerStatistics {
  /** Probes with at least one connection, by name. */
  readonly connectedProbes: readonly string[];
  readonly connections: number;
  readonly messages: number;
  readonly signInsRefused: number;
  /** Messages refused at the door: wrong topic or too large. */
  readonly messagesRefused: number;
}

/** A sign-in that was turned down. */
export interface RefusedSignIn {
  /** As it was given: mostly a probe's name, or a slip of one. */
  readonly name: string;
  readonly reason: string;
  readonly atMs: number;
  readonly count: number;
}

/** What other services may ask of the embedded broker. */
export interface BrokerPort {
  statistics(): BrokerStatistics;
  /** Last refused sign-in under each name since the start, newest first; a bounded number. */
  refusedSignIns(): RefusedSignIn[];
  /** Ends every connection of a probe, e.g. because its credential was revoked or replaced. */
  disconnectProbe(probeId: string): void;
}
