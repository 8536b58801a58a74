import { createHash, randomBytes } from 'node:crypto';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { eventually } from '../../helpers/eventually.ts';
import { type Engine, onPath } from './engine.ts';
import type { ImageNames } from './images.ts';
import { run, tryRun } from './run.ts';
import { sayNowAndThen } from './say.ts';

const root = fileURLToPath(new URL('../../..', import.meta.url));
const files = ['docker-compose.yml', 'tests/containers/compose.test.yaml'].map((file) => join(root, file));

/** The yard's image of this checkout; another checkout on the same engine has another one. */
const yardImage = `tilthwatch:test-${createHash('sha256').update(root).digest('hex').slice(0, 8)}`;

export interface ProjectOptions {
  readonly engine: Engine;
  readonly images: ImageNames;
  readonly profile: 'one-box' | 'full';
  /** Variables of docker-compose.yml. */
  readonly variables: Readonly<Record<string, string>>;
}

/** What runs under one project name: the containers, networks and volumes of one test. */
export interface Project {
  build(): Promise<void>;
  up(): Promise<void>;
  /** Takes containers and networks away, and the volumes too when told. */
  down(options?: { readonly volumes: boolean }): Promise<void>;
  logs(service: string): Promise<string>;
  /** What a command printed inside a running container. */
  exec(service: string, ...words: string[]): Promise<string>;
  inspect(service: string): Promise<ContainerFacts>;
  /** Kills the program in a container from outside, as a lack of memory would. */
  kill(service: string): Promise<void>;
  isHealthy(service: string): Promise<boolean>;
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
  const idOf = async (service: string) => (await compose(['ps', '-q', service])).trim();
  const inspect = async (service: string) => {
    const said = await run('docker', ['inspect', await idOf(service)], { environment });
    return (JSON.parse(said) as ContainerFacts[])[0]!;
  };
  return {
    build: async () => void (await compose(['build'], sayNowAndThen('the image of the yard'))),
    up: async () => void (await compose(['up', '-d'])),
    down: async (wishes = { volumes: false }) =>
      void (await compose(['down', '--remove-orphans', ...(wishes.volumes ? ['--volumes'] : [])])),
    logs: (service) => compose(['logs', '--no-color', service]),
    exec: (service, ...words) => compose(['exec', '-T', service, ...words]),
    inspect,
    kill: async (service) => void process.kill((await inspect(service)).State.Pid, 'SIGKILL'),
    isHealthy: async (service) => (await inspect(service)).State.Health?.Status === 'healthy',
  };
}

/** Waits until the container's own health check says that it is well. */
export async function becomesHealthy(project: Project, service: string): Promise<void> {
  await eventually(`${service} is healthy`, () => project.isHealthy(service), 240_000);
}
