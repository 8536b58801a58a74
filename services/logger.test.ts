import { describe, expect, it } from 'vitest';
import { createLogger } from './logger.ts';

function logged(write: (logger: ReturnType<typeof createLogger>) => void): string {
  const lines: string[] = [];
  write(createLogger('info', { write: (line: string) => void lines.push(line) }));
  return lines.join('');
}
const secret = 'SeCrEt-7f3a';

describe('the log', () => {
  it('is JSON with the fields of what it is about', () => {
    const line = JSON.parse(logged((logger) => logger.info({ probe: 'p1', count: 3 }, 'stored')));
    expect(line).toMatchObject({ probe: 'p1', count: 3, msg: 'stored', level: 30 });
  });

  it.each<[string, object]>([
    ['a password', { password: secret }],
    ['a secret inside', { probe: { secret } }],
    ['a token deep inside', { influx: { settings: { token: secret } } }],
    ['headers of a call', { request: { headers: { authorization: `Bearer ${secret}` } } }],
    ['a database address', { records: { postgresUrl: `postgres://yard:${secret}@db/x` } }],
    ['a whole configuration', { configuration: { broker: { externalPassword: secret } } }],
    [
      'an error that carries its request',
      { err: Object.assign(new Error('refused'), { config: { x: secret } }) },
    ],
    ['an error whose words hold an address', { error: new Error(`connect mqtt://u:${secret}@h failed`) }],
    ['an error whose words hold a key', { error: new Error(`GET https://sms.example/send?key=${secret}`) }],
  ])('does not hold %s', (_what, fields) => {
    const text = logged((logger) => logger.warn(fields, 'something'));
    expect(text).toContain('something');
    expect(text).not.toContain(secret);
  });

  it('keeps what an error says, also under the name "error"', () => {
    const error = Object.assign(new Error('disk is full'), { code: 'ENOSPC' });
    for (const fields of [{ err: error }, { error }]) {
      const text = logged((logger) => logger.error(fields, 'not stored'));
      expect(text).toContain('disk is full');
      expect(text).toContain('ENOSPC');
      expect(text).toContain('logger.test.ts');
    }
  });

  it('keeps redacting in the loggers a request makes for itself', () => {
    const text = logged((logger) => logger.child({ request: 'r1' }).info({ cookie: secret }, 'asked'));
    expect(text).toContain('r1');
    expect(text).not.toContain(secret);
  });
});
