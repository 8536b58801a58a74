import type { ChannelCheck } from '../messageChannel.ts';
import type { AtEngine } from './atEngine.ts';
import { AtRefused, ModemNotReady } from './atErrors.ts';
import { answer } from './session.ts';

/** Registered at home or roaming, or for texts only (27.007 section 7.2; 6 and 7 from memory). */
const registered = [1, 5, 6, 7];
const denied = 3;
const unknownSignal = 99;

/** @throws ModemNotReady when the network does not have us, AtLost when the modem does not answer. */
export async function needNetwork(engine: AtEngine, waitMs: number): Promise<void> {
  const state = (await registration(engine, 'CREG', waitMs)) ?? 0;
  if (registered.includes(state)) return;
  // A modem that knows only newer networks is registered there alone.
  const newer = await registration(engine, 'CEREG', waitMs);
  if (newer !== null && registered.includes(newer)) return;
  if (state === denied || newer === denied)
    throw new ModemNotReady('the network does not accept this SIM card', true);
  throw new ModemNotReady('no network: the modem is still looking for one', false);
}

async function registration(engine: AtEngine, command: string, waitMs: number): Promise<number | null> {
  try {
    const found = /^\d+ ?, ?(\d+)/.exec(await answer(engine, `AT+${command}?`, `+${command}:`, waitMs));
    return found === null ? null : Number(found[1]);
  } catch (error) {
    if (error instanceof AtRefused) return null;
    throw error;
  }
}

/** Whether a text would go out now: network, signal and the number of the service centre. */
export async function checkNetwork(engine: AtEngine, waitMs: number): Promise<ChannelCheck> {
  await needNetwork(engine, waitMs);
  if (!(await hasServiceCentre(engine, waitMs))) {
    const detail = "the number of the network's service centre is not set on the SIM card";
    return { ready: false, detail, tellOwner: true };
  }
  return { ready: true, detail: `modem is on the network, ${await signal(engine, waitMs)}` };
}

/** A modem that will not say has one, as far as we know. */
async function hasServiceCentre(engine: AtEngine, waitMs: number): Promise<boolean> {
  try {
    return !/^"" ?(,|$)/.test(await answer(engine, 'AT+CSCA?', '+CSCA:', waitMs));
  } catch (error) {
    if (error instanceof AtRefused) return true;
    throw error;
  }
}

/** 0..31 stand for -113..-51 dBm in steps of two (27.007 section 8.5). */
async function signal(engine: AtEngine, waitMs: number): Promise<string> {
  try {
    const level = Number(/^\d+/.exec(await answer(engine, 'AT+CSQ', '+CSQ:', waitMs))?.[0] ?? unknownSignal);
    return level === unknownSignal ? 'signal unknown' : `signal ${-113 + 2 * level} dBm`;
  } catch (error) {
    if (error instanceof AtRefused) return 'signal unknown';
    throw error;
  }
}
