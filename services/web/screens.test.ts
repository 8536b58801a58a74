import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { openTestWeb, type TestWeb, testNowMs } from './testing/openTestWeb.ts';

let web: TestWeb;
beforeEach(async () => {
  web = await openTestWeb();
});
afterEach(() => web.close());

const get = (url: string, cookies = {}) => web.inject({ url, cookies });

async function build(files: Record<string, string>): Promise<void> {
  await mkdir(join(web.folder, 'dist/assets'), { recursive: true });
  for (const [name, text] of Object.entries(files)) await writeFile(join(web.folder, 'dist', name), text);
}

describe('the screens', () => {
  it('say plainly when they are not built, and work as soon as they are', async () => {
    const missing = await get('/');
    expect([missing.statusCode, missing.body]).toEqual([503, expect.stringContaining('npm run build')]);
    await build({ 'index.html': '<p>app', 'wall.html': '<p>wall' });
    expect((await get('/')).body).toBe('<p>app');
    expect((await get('/wall')).body).toBe('<p>wall');
  });

  it('are kept for ever where the name holds a hash, else asked for again each time', async () => {
    await build({ 'index.html': 'x', 'assets/app-1a2b.js': 'let a', 'mark.svg': '<svg/>' });
    expect((await get('/assets/app-1a2b.js')).headers).toMatchObject({
      'cache-control': 'public, max-age=31536000, immutable',
      'content-type': expect.stringContaining('javascript'),
      'x-content-type-options': 'nosniff',
    });
    for (const url of ['/', '/mark.svg']) expect((await get(url)).headers['cache-control']).toBe('no-cache');
  });

  it('allow only our own scripts and no frame around them', async () => {
    await build({ 'index.html': 'x' });
    const policy = String((await get('/')).headers['content-security-policy']);
    expect(policy).toContain("script-src 'self';");
    expect(policy).toContain("frame-ancestors 'none'");
    expect(policy).not.toContain('unsafe');
  });

  it.each([
    '/../records.db',
    '/%2e%2e/records.db',
    '/..%2frecords.db',
    '/assets/..%5c..%5crecords.db',
    '/assets/%00.js',
    '/.env',
    '//records.db',
    '/%ff',
  ])('give nothing from outside their folder: %s', async (url) => {
    await build({ 'index.html': 'x', '.env': 'SECRET=1' });
    const { statusCode, body } = await get(url);
    expect([400, 404]).toContain(statusCode);
    expect(body).not.toMatch(/SQLite|SECRET/);
  });
});

describe('the wall’s link', () => {
  it('puts its key into a cookie and out of the address, and lets the wall in', async () => {
    const key = web.cookies.wall['tilth-wall']!;
    const response = await get(`/wall?key=${key}`);
    expect([response.statusCode, response.headers.location]).toEqual([302, '/wall']);
    const cookie = response.cookies.find(({ name }) => name === 'tilth-wall')!;
    expect(cookie).toMatchObject({ value: key, httpOnly: true, path: '/' });
    const session = await get('/api/session', { 'tilth-wall': cookie.value });
    expect(session.json()).toMatchObject({ kind: 'wall', person: null, yard: { name: 'Test Yard' } });
    expect(session.cookies.find(({ name }) => name === 'tilth-wall')?.maxAge).toBe(400 * 86_400);
  });

  it('is made once by an owner, shown once, and worth nothing after it was revoked', async () => {
    const { url, link } = (await web.call('owner', 'POST', '/api/wall-links', { label: 'barn' })).json();
    const key = new URL(url).searchParams.get('key')!;
    expect((await get('/api/wall', { 'tilth-wall': key })).statusCode).toBe(200);
    expect((await web.call('owner', 'GET', '/api/wall-links')).body).not.toContain(key);
    const revoked = await web.call('owner', 'POST', `/api/wall-links/${link.id}/revoke`);
    expect(revoked.json()).toMatchObject({ revokedMs: testNowMs, createdBy: 'Some owner' });
    expect((await get('/api/wall', { 'tilth-wall': key })).statusCode).toBe(401);
    expect((await get(`/wall?key=${key}`)).cookies[0]).toMatchObject({ name: 'tilth-wall', value: '' });
  });

  it('does not take a signed-in person’s rights away in the same browser', async () => {
    const both = { ...web.cookies.owner, ...web.cookies.wall };
    expect((await get('/api/session', both)).json().kind).toBe('person');
  });
});

describe('the API’s own description', () => {
  it('is OpenAPI with every API route, its refusals and no page', async () => {
    const { openapi, paths } = (await get('/api/openapi.json')).json();
    expect(openapi).toBe('3.1.0');
    const described = Object.entries(paths as Record<string, object>)
      .flatMap(([path, methods]) => Object.keys(methods).map((method) => `${method.toUpperCase()} ${path}`))
      .map((route) => route.replaceAll(/\{([^}]+)\}/g, ':$1'));
    const routes = web.app.accessList().map(({ route }) => route);
    const hidden = ['GET /api/openapi.json'];
    expect(described.sort()).toEqual(
      routes.filter((route) => route.includes(' /api/') && !hidden.includes(route)).sort(),
    );
    expect(paths['/api/wall'].get.responses['4XX'].content).toHaveProperty('application/problem+json');
  });
});

describe('every answer of the API', () => {
  it.each(['/api/session', '/api/nothing', '/api/piles', '/api/piles/x/page'])(
    '%s is never kept by a browser or proxy',
    async (url) => {
      expect((await get(url)).headers).toMatchObject({
        'cache-control': 'no-store',
        'x-content-type-options': 'nosniff',
        'referrer-policy': 'no-referrer',
      });
    },
  );

  it('refuses in problem+json what does not exist, is no JSON or is too large', async () => {
    const post = (payload: string) =>
      web.inject({
        method: 'POST',
        url: '/api/session',
        headers: { 'x-tilth-request': '1', 'content-type': 'application/json' },
        payload,
      });
    const answers = [await get('/api/nothing'), await post('{"login":'), await post('x'.repeat(300_000))];
    expect(answers.map((answer) => answer.json().code)).toEqual(['not-found', 'bad-request', 'too-large']);
    for (const { headers } of answers) expect(headers['content-type']).toContain('application/problem+json');
  });
});
