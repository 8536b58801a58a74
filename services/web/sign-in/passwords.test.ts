import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { tooEasy } from './commonPasswords.ts';
import { createPasswordHasher } from './passwordHasher.ts';
import { formatPhc, parsePhc } from './phc.ts';

const quick = { memoryKibibytes: 64, passes: 1, lanes: 1 };

describe('the password hash', () => {
  it('has the strength OWASP asks for and a salt of its own each time', async () => {
    const hasher = createPasswordHasher();
    const [first, second] = [await hasher.hash('same words again'), await hasher.hash('same words again')];
    expect(parsePhc(first)!.parameters).toEqual({ memoryKibibytes: 19_456, passes: 2, lanes: 1 });
    expect(parsePhc(first)!.salt).toHaveLength(16);
    expect(first).not.toBe(second);
    expect(await hasher.verify('same words again', first)).toBe(true);
  });

  it('fits exactly the password it was made of, whatever the characters', async () => {
    const hasher = createPasswordHasher(quick);
    await fc.assert(
      fc.asyncProperty(
        fc.string({ unit: 'binary', maxLength: 60 }),
        fc.string({ maxLength: 60 }),
        async (a, b) => {
          const phc = await hasher.hash(a);
          expect(await hasher.verify(a, phc)).toBe(true);
          expect(await hasher.verify(b, phc)).toBe(a.normalize('NFC') === b.normalize('NFC'));
        },
      ),
      { numRuns: 100 },
    );
  });

  it('takes an accent typed on one device as the same on another', async () => {
    const hasher = createPasswordHasher(quick);
    expect(await hasher.verify('caf\u00e9 au lait gris', await hasher.hash('cafe\u0301 au lait gris'))).toBe(
      true,
    );
  });

  it('never fits where there is none', async () => {
    expect(await createPasswordHasher(quick).verify('', null)).toBe(false);
  });

  it('costs the same work where there is none, so that time does not tell which accounts exist', async () => {
    const work: object[] = [];
    const hasher = createPasswordHasher(quick, 2, async (_password, _salt, parameters) => {
      work.push(parameters);
      return Buffer.alloc(32);
    });
    const phc = await hasher.hash('x');
    work.length = 0;
    await hasher.verify('x', phc);
    await hasher.verify('x', null);
    expect(work).toEqual([quick, quick]);
  });

  it('is worked out two at a time at most, so that a flood of sign-ins leaves room for the rest', async () => {
    let [running, most] = [0, 0];
    const hasher = createPasswordHasher(quick, 2, async () => {
      running += 1;
      most = Math.max(most, running);
      await new Promise((resolve) => setImmediate(resolve));
      running -= 1;
      return Buffer.alloc(32);
    });
    await Promise.all(Array.from({ length: 30 }, () => hasher.hash('x')));
    expect([most, running]).toEqual([2, 0]);
  });

  it('tells a damaged hash from a wrong password', async () => {
    await expect(createPasswordHasher(quick).verify('x', '$argon2id$broken')).rejects.toThrow('damaged');
  });

  it('is read back from its text form as it was written', () => {
    const bytes = fc.uint8Array({ minLength: 32, maxLength: 32 });
    fc.assert(
      fc.property(bytes, fc.integer({ min: 1, max: 99_999 }), (hash, memoryKibibytes) => {
        const parameters = { ...quick, memoryKibibytes };
        const stored = parsePhc(formatPhc(parameters, Buffer.from(hash.subarray(0, 16)), Buffer.from(hash)));
        expect(stored).toEqual({
          parameters,
          salt: Buffer.from(hash.subarray(0, 16)),
          hash: Buffer.from(hash),
        });
      }),
    );
  });
});

describe('a new password', () => {
  it.each([
    'aaaaaaaaaaaaa',
    'password1234',
    'Password!2026',
    'qwertyuiopas',
    '987654321098',
    'abcdefghijkl',
    'annann123456',
    'Gannet Row 1!',
  ])('%s is too easy', (password) => {
    expect(tooEasy(password, ['ann', 'Gannet Row'])).toMatch(/\w/);
  });

  it.each([
    'nine damp leaves rustle',
    'gannets row past the harbour',
    'Xk3#vT9!mQ2$',
    'annabel waters the heap',
  ])('%s is fine', (password) => {
    expect(tooEasy(password, ['ann', 'Gannet Row'])).toBeNull();
  });
});
