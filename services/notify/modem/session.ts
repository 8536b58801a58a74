import type { Duplex } from 'node:stream';
import { type AtEngine, type AtEngineEvents, createAtEngine } from './atEngine.ts';
import { AtLost, AtRefused, ModemNotReady } from './atErrors.ts';
import type { ModemMode } from './mode.ts';
import type { ModemSettings } from './settings.ts';

/** How long noise and late answers are listened to before the first command. */
const quietMs = 200;
const tries = 3;
const pinWaitTries = 10;
const pinWaitMs = 500;

/** PINs a card refused, so that no further try locks it; for as long as the program runs. */
export type RefusedPins = Set<string>;

/**
 * Brings a modem that just came, or that hung, to where texts can be sent and come in: alive, quiet, with reasons for its
 * refusals, its SIM card open, in the right mode.
 * @throws ModemNotReady for what a person has to put right, AtLost when it does not answer.
 */
export async function openSession(
  stream: Duplex,
  mode: ModemMode,
  settings: ModemSettings,
  refusedPins: RefusedPins,
  events: AtEngineEvents,
): Promise<AtEngine> {
  const engine = createAtEngine(stream, events);
  const waitMs = settings.answerSeconds * 1000;
  try {
    await engine.settle(quietMs);
    await wake(engine, waitMs);
    await engine.command('ATE0', waitMs);
    await optional(engine, ['AT+CMEE=1'], waitMs);
    await openSim(engine, settings, refusedPins);
    await enter(mode, engine, settings);
    const { storage } = settings;
    await optional(engine, [`AT+CPMS="${storage}","${storage}","${storage}"`], waitMs);
    // Texts are kept and announced; reports are passed on at once where the modem can.
    await optional(engine, ['AT+CNMI=2,1,0,1,0', 'AT+CNMI=2,1,0,0,0', 'AT+CNMI=1,1,0,0,0'], waitMs);
    return engine;
  } catch (error) {
    engine.close();
    throw error;
  }
}

async function enter(mode: ModemMode, engine: AtEngine, settings: ModemSettings): Promise<void> {
  try {
    await mode.setUp(engine, settings.answerSeconds * 1000);
  } catch (error) {
    if (!(error instanceof AtRefused)) throw error;
    throw new ModemNotReady(`modem refuses ${settings.mode} mode: set modem.mode to the other one`, true);
  }
}

/** What was left on its line may make the first command an error. */
async function wake(engine: AtEngine, waitMs: number): Promise<void> {
  for (let attempt = 1; ; attempt += 1) {
    try {
      await engine.command('AT', waitMs);
      return;
    } catch (error) {
      if (!(error instanceof AtRefused) || attempt === tries) throw error;
    }
  }
}

/** The first of some commands the modem knows; none is no harm. */
async function optional(engine: AtEngine, commands: readonly string[], waitMs: number): Promise<void> {
  for (const command of commands) {
    try {
      await engine.command(command, waitMs);
      return;
    } catch (error) {
      if (!(error instanceof AtRefused)) throw error;
    }
  }
}

async function openSim(engine: AtEngine, settings: ModemSettings, refusedPins: RefusedPins): Promise<void> {
  const waitMs = settings.answerSeconds * 1000;
  const state = await answer(engine, 'AT+CPIN?', '+CPIN:', waitMs);
  if (state === 'READY') return;
  if (state !== 'SIM PIN') throw new ModemNotReady(`SIM card cannot be used: it says "${state}"`, true);
  const { pin } = settings;
  if (pin === null) throw new ModemNotReady('SIM card asks for its PIN, and none is set', true);
  if (refusedPins.has(pin)) throw new ModemNotReady('SIM card refused its PIN; it is not tried again', true);
  try {
    await engine.command(`AT+CPIN="${pin}"`, waitMs);
  } catch (error) {
    // Also when it did not answer: a second wrong try is one nearer to a locked card.
    refusedPins.add(pin);
    if (error instanceof AtRefused)
      throw new ModemNotReady('SIM card refused its PIN; it is not tried again', true);
    throw error;
  }
  for (let attempt = 1; attempt <= pinWaitTries; attempt += 1) {
    const isReady = await answer(engine, 'AT+CPIN?', '+CPIN:', waitMs).catch(() => null);
    if (isReady === 'READY') return;
    await new Promise((resolve) => setTimeout(resolve, pinWaitMs));
  }
  throw new ModemNotReady('SIM card does not get ready after its PIN', false);
}

/**
 * What follows a prefix in the answer to a question.
 * @throws AtLost when the answer is not to this question: ours and the modem's turns no longer match.
 */
export async function answer(
  engine: AtEngine,
  command: string,
  prefix: string,
  waitMs: number,
): Promise<string> {
  const lines = await engine.command(command, waitMs);
  const line = lines.find((candidate) => candidate.startsWith(prefix));
  if (line === undefined) throw new AtLost(`modem did not answer ${command}`);
  return line.slice(prefix.length).trim();
}
