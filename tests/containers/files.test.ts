import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import manifest from '../../package.json' with { type: 'json' };
import { nodeFlags } from '../../services/nodeFlags.mjs';

/** What can be said of the files of containers without an engine. */
const root = join(import.meta.dirname, '../..');
const dockerfile = readFileSync(join(root, 'services/Dockerfile'), 'utf8');

interface Service {
  readonly image: string;
  readonly user: string;
  readonly read_only: boolean;
  readonly cap_drop: readonly string[];
  readonly mem_limit: string;
  readonly restart: string;
  readonly profiles: readonly string[];
  readonly ports?: readonly string[];
  readonly build: { readonly args: Readonly<Record<string, string>> };
  readonly healthcheck?: Readonly<Record<string, unknown>>;
  readonly environment?: Readonly<Record<string, string>>;
}
const compose = parse(readFileSync(join(root, 'docker-compose.yml'), 'utf8'), { merge: true }) as {
  readonly services: Readonly<Record<string, Service>>;
};
const services = Object.entries(compose.services);

describe('the image of the yard', () => {
  test('starts Node as npm start does', () => {
    const [, words] = /^ENTRYPOINT (\[.*\])$/m.exec(dockerfile)!;
    expect(JSON.parse(words!)).toEqual(['node', ...nodeFlags, 'services/main.ts']);
  });

  test('leaves behind only what package.json names', () => {
    const left = [...dockerfile.matchAll(/dependencies\.([\w@/-]+)/g)].map(([, name]) => name!);
    expect(left.length).toBeGreaterThan(3);
    expect(Object.keys(manifest.dependencies)).toEqual(expect.arrayContaining(left));
  });
});

describe('pg_dump', () => {
  /** Major version of postgresql-client in each Debian (packages.debian.org). */
  const clientOf: Readonly<Record<string, number>> = { bookworm: 15, trixie: 17 };

  test('in the image is as new as the PostgreSQL beside it', () => {
    const [, fileBase] = /^ARG BASE_IMAGE=(.+)$/m.exec(dockerfile)!;
    const { build } = compose.services.web!;
    expect(build.args.BASE_IMAGE).toBe(`\${YARD_BASE_IMAGE:-${fileBase}}`);
    const [, debian] = /^node:24-(\w+)-slim$/.exec(fileBase!)!;
    const [, server] = /^\$\{POSTGRES_IMAGE:-postgres:(\d+)\}$/.exec(compose.services.postgres!.image)!;
    expect(clientOf[debian!]).toBeGreaterThanOrEqual(Number(server));
    expect(dockerfile).toMatch(/^FROM \$\{BASE_IMAGE\}\n#.*\nRUN [\s\S]*postgresql-client/m);
  });
});

describe('docker-compose.yml', () => {
  test.each(services)(
    '%s is nobody of weight and bounded, its image can be another one',
    (_name, service) => {
      expect(service).toMatchObject({ read_only: true, cap_drop: ['ALL'] });
      expect(service.user).toMatch(/^[1-9]\d*:[1-9]\d*$/);
      expect(service.mem_limit).toMatch(/^\d+[mg]$/);
      expect(service.image).toMatch(/^\$\{\w+_IMAGE:-.+\}$/);
      expect(service.healthcheck).toBeDefined();
      // What runs once is not looked after; everything else is, and comes back.
      const isOnce = service.healthcheck?.disable === true;
      expect(service.restart).toBe(isOnce ? 'no' : 'unless-stopped');
    },
  );

  test('opens ports to this machine only, until told otherwise', () => {
    const ports = services.flatMap(([, service]) => service.ports ?? []);
    expect(ports).toHaveLength(4);
    for (const port of ports) expect(port).toMatch(/^\$\{YARD_LISTEN:-127\.0\.0\.1\}:/);
  });

  test('hands over passwords as files only', () => {
    const set = services.flatMap(([, { environment = {} }]) => Object.keys(environment));
    const secret = set.filter((name) => /PASSWORD|TOKEN|POSTGRESURL/.test(name));
    expect(secret.length).toBeGreaterThan(5);
    expect(secret.filter((name) => !name.endsWith('_FILE'))).toEqual([]);
  });

  test('starts one box when nothing else is asked', () => {
    const [, profile] = /^COMPOSE_PROFILES=(.+)$/m.exec(readFileSync(join(root, '.env'), 'utf8'))!;
    const started = services.filter(([, { profiles }]) => profiles.includes(profile!)).map(([name]) => name);
    expect(started).toEqual(['yard']);
  });
});
