/**
 * First step of every npm script. It runs on whatever Node the machine has (20 or newer), installs what the lockfile
 * names when that has not been done yet, builds the screens when they are stale, and hands over to the pinned Node 24.
 * Plain JavaScript on purpose: older Nodes cannot strip types.
 */
import { spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { nodeFlags } from './nodeFlags.mjs';

const root = fileURLToPath(new URL('..', import.meta.url));
const bin = join(root, 'node_modules', '.bin');
const environment = { ...process.env, PATH: `${bin}${delimiter}${process.env.PATH ?? ''}` };

/** Runs a program to its end, handing signals on, and resolves to its exit code. */
function run(program, args, extra = {}) {
  return new Promise((resolve, reject) => {
    const child = spawn(program, args, { cwd: root, env: environment, stdio: 'inherit', ...extra });
    const forward = (signal) => child.kill(signal);
    process.on('SIGINT', forward);
    process.on('SIGTERM', forward);
    child.on('error', reject);
    child.on('exit', (code, signal) => {
      process.off('SIGINT', forward);
      process.off('SIGTERM', forward);
      resolve(code ?? (signal === 'SIGINT' || signal === 'SIGTERM' ? 0 : 1));
    });
  });
}

async function mustRun(step, program, args, extra) {
  const code = await run(program, args, extra);
  if (code !== 0) {
    console.error(`${step} failed (exit code ${code}). What it printed above says why.`);
    process.exit(code);
  }
}

/** Installs when node_modules does not hold what this lockfile names. */
async function install() {
  const lock = createHash('sha256')
    .update(readFileSync(join(root, 'package-lock.json')))
    .digest('hex');
  const stamp = join(root, 'node_modules', '.tilth-installed');
  if (existsSync(stamp) && readFileSync(stamp, 'utf8') === lock) return;
  console.log('Installing what the lockfile names (once; a minute or two)...');
  await mustRun('Installing', 'npm', ['ci', '--no-audit', '--no-fund', '--loglevel=error'], {
    env: process.env,
  });
  writeFileSync(stamp, lock);
}

function newestChange(folder) {
  let newest = 0;
  for (const entry of readdirSync(folder, { withFileTypes: true, recursive: true })) {
    if (!entry.isFile() || entry.parentPath.includes(`${join(root, 'dashboards', 'dist')}`)) continue;
    newest = Math.max(newest, statSync(join(entry.parentPath, entry.name)).mtimeMs);
  }
  return newest;
}

/** Builds the screens when anything they are made from is newer than the last build. */
async function buildScreens({ always = false } = {}) {
  const built = join(root, 'dashboards', 'dist', '.built');
  const sources = Math.max(newestChange(join(root, 'dashboards')), newestChange(join(root, 'shared')));
  if (!always && existsSync(built) && statSync(built).mtimeMs >= sources) return;
  console.log('Building the screens...');
  await mustRun('Building the screens', 'vite', [
    'build',
    '--config',
    'dashboards/vite.config.ts',
    '--logLevel',
    'warn',
  ]);
  writeFileSync(built, '');
}

async function check() {
  await mustRun('Checking types', 'tsc', ['-p', 'tsconfig.json']);
  await mustRun('Checking types of shared/', 'tsc', ['-p', 'shared']);
  await mustRun('Checking types of dashboards/', 'tsc', ['-p', 'dashboards']);
  await mustRun('Lint and format', 'biome', ['check', '--error-on-warnings', '.']);
  console.log('Types, lint and format are clean.');
}

/** Runs every suite that can run here, then says in plain words which could not and why. */
async function test(args, { writeFaults = false } = {}) {
  const folder = mkdtempSync(join(tmpdir(), 'tilth-test-'));
  const results = join(folder, 'results.json');
  const skips = join(folder, 'skips.txt');
  const reporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${results}`];
  const faults = join(folder, 'faults.jsonl');
  // No TILTH_ names: those set fields of the configuration, and programs under test inherit this environment.
  const extra = { env: { ...environment, SKIPPED_SUITES_FILE: skips, FAULT_ROWS_FILE: faults } };
  const code = await run(
    'vitest',
    ['run', '--config', 'tests/vitest.config.ts', ...reporters, ...args],
    extra,
  );
  const reasons = existsSync(skips) ? [...new Set(readFileSync(skips, 'utf8').trim().split('\n'))] : [];
  const totals = existsSync(results) ? JSON.parse(readFileSync(results, 'utf8')) : null;
  const table = existsSync(faults)
    ? await run('node', ['tests/faults/printTable.ts', faults, ...(writeFaults ? ['--write'] : [])])
    : 0;
  rmSync(folder, { recursive: true, force: true });
  if (reasons.length > 0)
    console.log(`\nSuites that could not run here:\n${reasons.map((line) => `  - ${line}`).join('\n')}`);
  if (!totals) process.exit(code || 1);
  const { numPassedTests: passed, numFailedTests: failed, numPendingTests: pending } = totals;
  const skipped = pending > 0 ? `, ${pending} skipped` : '';
  // A suite that could not even load counts no failed test; it must not look like success.
  const broken = totals.success ? failed : Math.max(failed, 1);
  console.log(`\n${passed} passed, ${broken} failed${skipped}`);
  process.exit(broken > 0 || code !== 0 || table !== 0 ? code || 1 : 0);
}

const benches = ['compost', 'ingest', 'rules', 'texting', 'replay', 'screens', 'scale'];

async function bench(args) {
  const options = args.filter((word) => word.startsWith('--'));
  const names = args.filter((word) => !word.startsWith('--'));
  for (const name of names.length > 0 ? names : benches) {
    const file = `tests/load/${name}.bench.ts`;
    await mustRun(`Bench ${name}`, 'node', [file, ...options]);
  }
}

/** Commands of the machine room, each a program of its own beside main.ts. */
const programs = {
  backup: 'services/backup.ts',
  restore: 'services/restore.ts',
  export: 'services/exportYard.ts',
  import: 'services/importYard.ts',
  doctor: 'services/doctor.ts',
};

const [command, ...args] = process.argv.slice(2);
await install();
switch (command) {
  case 'demo':
    await buildScreens();
    process.exit(await run('node', [...nodeFlags, 'services/demo.ts', ...args]));
    break;
  case 'start':
    await buildScreens();
    process.exit(await run('node', [...nodeFlags, 'services/main.ts', ...args]));
    break;
  case 'test':
    await buildScreens();
    await test(args);
    break;
  case 'faults':
    environment.REQUIRE_ALL = '1';
    await test(args.length > 0 ? args : ['tests/faults', 'tests/containers'], { writeFaults: true });
    break;
  case 'check':
    await check();
    break;
  case 'format':
    await mustRun('Formatting', 'biome', ['check', '--write', '.']);
    break;
  case 'build':
    await buildScreens({ always: true });
    break;
  case 'bench':
    await buildScreens();
    await bench(args);
    break;
  case 'bench:judgement':
    await mustRun('Bench judgement', 'node', ['tests/load/judgement.bench.ts', ...args]);
    break;
  default:
    if (Object.hasOwn(programs, command ?? '')) process.exit(await run('node', [programs[command], ...args]));
    console.error(
      `There is no "${command}". There is: demo, start, ${Object.keys(programs).join(', ')}, test, faults, check, format, build, bench, bench:judgement.`,
    );
    process.exit(2);
}
