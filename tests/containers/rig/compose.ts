import { createHash, randomBytes } from 'node:crypto';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { eventually } from '../../helpers/eventually.ts';
import { type Engine, engineFolder, onPath } from './engine.ts';
import type { ImageNames } from './images.ts';
import { withLock } from './lock.ts';
import { run, tryRun } from './run.ts';
import { sayNowAndThen } from './say.ts';

const root = fileURLToPath(new URL('../../..', import.meta.url));
const files = ['docker-compose.yml', 'tests/containers/compose.test.yaml'].map((file) => join(root, file));

/** The yard's image of this checkout; another checkout on the same engine has another one. */
const yardImage = `tilthwatch:test-${createHash('sha256').update(root).digest('hex').slice(0, 8)}`;

/** Any of the services that are made from it. */
const serviceToBuild = { 'one-box': 'yard', full: 'web' } as const;

export interface ProjectOptions {
  readonly engine: Engine;
  readonly images: ImageNames;
  readonly profile: 'one-box' | 'full';
  /** Variables of docker-compose.yml. */
  readonly variables: Readonly<Record<string, string>>;
}

/** What runs under one project name: the containers, networks and volumes of one test. */
export interface Project {
  /** Builds the yard's image: it is one for all services, so it is built for one of them. */
  build(): Promise<void>;
  /** Starts some services with what they depend on; without names all of the profile. */
  up(...services: string[]): Promise<void>;
  /** Takes containers and networks away, and the volumes too when told. */
  down(options?: { readonly volumes: boolean }): Promise<void>;
  logs(service: string): Promise<string>;
  /** What a command printed inside a running container. */
  exec(service: string, ...words: string[]): Promise<string>;
  inspect(service: string): Promise<ContainerFacts>;
  /** Kills the program in a container from outside, as a lack of memory would. */
  kill(service: string): Promise<void>;
  /** Services whose containers' own health checks say that they are well. */
  healthy(): Promise<readonly string[]>;
}

/** What the engine says of a container, as far as the suites ask. */
export interface ContainerFacts {
  readonly RestartCount: number;
  readonly Config: { readonly User: string };
  readonly HostConfig: {
    readonly ReadonlyRootfs: boolean;
    readonly Memory: number;
    readonly CapDrop: readonly string[] | null;
    readonly PidsLimit: number | null;
  };
  readonly NetworkSettings: {
    readonly Networks: Readonly<Record<string, { readonly IPAddress: string }>>;
  };
  readonly State: {
    readonly Status: string;
    readonly Pid: number;
    readonly Health?: { readonly Status: string };
  };
}

/** Why there is no compose here; null when there is. */
export async function composeMissing(): Promise<string | null> {
  if ((await tryRun('docker', ['compose', 'version'])).code === 0 || onPath('docker-compose')) return null;
  return 'neither the compose plugin nor docker-compose is installed (Debian package docker-compose)';
}

export async function openProject(options: ProjectOptions): Promise<Project> {
  const { engine, images, profile, variables } = options;
  const hasPlugin = (await tryRun('docker', ['compose', 'version'])).code === 0;
  const name = `tilth-test-${randomBytes(4).toString('hex')}`;
  const environment = { ...images, YARD_IMAGE: yardImage, ...variables, ...engine.environment };
  const first = [...files.flatMap((file) => ['-f', file]), '-p', name, '--profile', profile];
  const compose = (words: readonly string[], onLine?: (line: string) => void) => {
    const [program, more] = hasPlugin ? ['docker', ['compose']] : ['docker-compose', []];
    return run(program, [...more, ...first, ...words], {
      cwd: root,
      environment,
      ...(onLine ? { onLine } : {}),
    });
  };
  const docker = (...words: string[]) => run('docker', words, { environment });
  // The engine is asked itself, by the labels every compose gives: that is quicker than compose by a second each time.
  const ofProject = ['--filter', `label=com.docker.compose.project=${name}`];
  const idOf = async (service: string) =>
    (
      await docker('ps', '-aq', ...ofProject, '--filter', `label=com.docker.compose.service=${service}`)
    ).trim();
  const inspect = async (service: string) =>
    (JSON.parse(await docker('inspect', await idOf(service))) as ContainerFacts[])[0]!;
  return {
    build: () =>
      buildOnce(() => compose(['build', serviceToBuild[profile]], sayNowAndThen('the image of the yard'))),
    up: async (...services) => void (await compose(['up', '-d', ...services])),
    down: async (wishes = { volumes: false }) =>
      void (await compose(['down', '--remove-orphans', ...(wishes.volumes ? ['--volumes'] : [])])),
    logs: async (service) => (await tryRun('docker', ['logs', await idOf(service)], { environment })).all,
    exec: async (service, ...words) => docker('exec', await idOf(service), ...words),
    inspect,
    kill: async (service) => void process.kill((await inspect(service)).State.Pid, 'SIGKILL'),
    async healthy() {
      const format = '{{.Label "com.docker.compose.service"}} {{.Status}}';
      const lines = (await docker('ps', ...ofProject, '--format', format)).split('\n');
      return lines.filter((line) => line.endsWith('(healthy)')).map((line) => line.split(' ')[0]!);
    },
  };
}

/** Suites run side by side: the second one finds every layer made. */
const buildOnce = (build: () => Promise<unknown>) =>
  withLock(join(engineFolder, 'build.lock'), async () => void (await build()));

/** Waits until the containers' own health checks say that they are well. */
export async function becomeHealthy(project: Project, ...services: string[]): Promise<void> {
  const areWell = async () => {
    const healthy = await project.healthy();
    return services.every((service) => healthy.includes(service));
  };
  await eventually(`${services.join(', ')} healthy`, areWell, 240_000, 500);
}
