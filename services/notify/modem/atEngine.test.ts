import { type Duplex, duplexPair } from 'node:stream';
import { afterEach, describe, expect, test } from 'vitest';
import { eventually } from '../../../tests/helpers/eventually.ts';
import { type AtEngine, createAtEngine } from './atEngine.ts';
import { AtLost, AtRefused } from './atErrors.ts';
import type { Unsolicited } from './unsolicited.ts';

let engine: AtEngine;
afterEach(() => engine.close());

/** An engine, the far end of its line, what it wrote there and what it passed on unasked. */
function open() {
  const [near, far] = duplexPair();
  const said: Unsolicited[] = [];
  const gone: boolean[] = [];
  let written = '';
  far.on('data', (bytes: Buffer) => {
    written += bytes.toString('latin1');
  });
  engine = createAtEngine(near, { onUnsolicited: (one) => said.push(one), onGone: () => gone.push(true) });
  return { far, said, gone, written: () => written };
}

const say = (far: Duplex, ...pieces: string[]) => {
  for (const piece of pieces) far.write(piece, 'latin1');
};
const wrote = (line: { written: () => string }, text: string) =>
  eventually(`"${text}" is written`, () => line.written().includes(text));

describe('the modem engine', () => {
  test('an answer in pieces, with an echo and with news in the middle, is the answer alone', async () => {
    const line = open();
    const answer = engine.command('AT+CSQ', 1000);
    await wrote(line, 'AT+CSQ\r');
    say(line.far, 'AT+C', 'SQ\r\r\n+CMTI: "SM"', ',3\r\n\r\n+CSQ: 1', '7,99\r\n^RSSI:17\r\n\r\nO', 'K\r\n');
    expect(await answer).toEqual(['+CSQ: 17,99']);
    expect(line.said.map((one) => one.line)).toEqual(['+CMTI: "SM",3', '^RSSI:17']);
  });

  test('a text delivered in the middle of an answer keeps its second line, even one that says OK', async () => {
    const line = open();
    const answer = engine.command('AT+CREG?', 1000);
    await wrote(line, 'AT+CREG?\r');
    say(line.far, '+CMT: ,24\r\nOK\r\n+CREG: 1\r\n+CREG: 0,5\r\nOK\r\n');
    expect(await answer).toEqual(['+CREG: 0,5']);
    expect(line.said).toEqual([
      { line: '+CMT: ,24', data: 'OK' },
      { line: '+CREG: 1', data: null },
    ]);
  });

  test('the next command waits for the final result of the one before', async () => {
    const line = open();
    const both = [engine.command('AT', 1000), engine.command('ATE0', 1000)];
    await wrote(line, 'AT\r');
    say(line.far, '+CPIN: READY\r\n');
    expect(line.written()).toBe('AT\r');
    say(line.far, 'OK\r\n');
    await wrote(line, 'ATE0\r');
    say(line.far, 'OK\r\n');
    expect(await Promise.all(both)).toEqual([['+CPIN: READY'], []]);
  });

  test.each([
    ['as it should', ['\r\n> ']],
    ['in pieces', ['\r\n', '>', ' ']],
    ['after news', ['+CMTI: "SM",1\r\n', '\r\n> ']],
    ['with news right behind it', ['\r\n> \r\n+CMTI: "SM",1\r\n']],
    ['after an echo', ['AT+CMGS=5\r\r\n> ']],
  ])('text is handed over when the prompt comes %s, and not before', async (_how, pieces) => {
    const line = open();
    const answer = engine.commandWithText('AT+CMGS=5', '00AB', 1000, 1000);
    await wrote(line, 'AT+CMGS=5\r');
    expect(line.written()).not.toContain('00AB');
    say(line.far, ...pieces);
    await wrote(line, '00AB\x1a');
    say(line.far, '> 00AB\x1a\r\n+CMGS: 7\r\n\r\nOK\r\n');
    expect(await answer).toEqual(['+CMGS: 7']);
  });

  test.each([
    ['+CMS ERROR: 38', 'cms', 38],
    ['+CME ERROR: 10', 'cme', 10],
    ['+CME ERROR: SIM not inserted', 'cme', null],
    ['ERROR', 'plain', null],
  ])('%s is a refusal, and the next command goes on', async (final, kind, code) => {
    const line = open();
    const refused = engine.command('AT+CMGF=0', 1000).catch((caught: unknown) => caught);
    await wrote(line, 'AT+CMGF=0\r');
    say(line.far, `${final}\r\n`);
    const error = await refused;
    expect(error).toBeInstanceOf(AtRefused);
    expect(error).toMatchObject({ kind, code });
    const next = engine.command('AT', 1000);
    await wrote(line, 'AT\r');
    say(line.far, 'OK\r\n');
    expect(await next).toEqual([]);
  });

  test('a prompt that never comes is lost, is aborted, and nothing has been handed over', async () => {
    const line = open();
    const error = await engine
      .commandWithText('AT+CMGS=5', '00AB', 50, 1000)
      .catch((caught: unknown) => caught);
    expect(error).toBeInstanceOf(AtLost);
    expect(error).toMatchObject({ afterPayload: false });
    await wrote(line, '\x1b');
    expect(line.written()).not.toContain('00AB');
  });

  test('silence after the text, or a line that ends, says that it may be on its way', async () => {
    const line = open();
    const caught = (error: unknown) => error;
    const silent = engine.commandWithText('AT+CMGS=5', '00AB', 1000, 50).catch(caught);
    await wrote(line, 'AT+CMGS=5\r');
    say(line.far, '> ');
    expect(await silent).toMatchObject({ afterPayload: true });
    const failed = engine.commandWithText('AT+CMGS=6', '00CD', 1000, 1000).catch(caught);
    await wrote(line, 'AT+CMGS=6\r');
    say(line.far, '> ');
    await wrote(line, '00CD\x1a');
    line.far.destroy();
    expect(await failed).toMatchObject({ name: 'AtLost', afterPayload: true });
    expect(line.gone).toEqual([true]);
    await expect(engine.command('AT', 1000)).rejects.toThrow(AtLost);
  });

  test('an OK instead of a prompt means that our turns and the modem no longer match', async () => {
    const line = open();
    const answer = engine
      .commandWithText('AT+CMGS=5', '00AB', 60_000, 1000)
      .catch((caught: unknown) => caught);
    await wrote(line, 'AT+CMGS=5\r');
    say(line.far, 'OK\r\n');
    expect(await answer).toBeInstanceOf(AtLost);
  });
});
