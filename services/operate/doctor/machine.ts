import { constants } from 'node:fs';
import { access, readdir, rm, stat, statfs, writeFile } from 'node:fs/promises';
import { dirname, join, resolve } from 'node:path';
import { bad, type Finding, good, warning } from './finding.ts';

const dayMs = 86_400_000;
const leastNode = 24;
const lowBytes = 1e9;
const tooLowBytes = 200e6;
/** File times and clocks are not set to the second. */
const toleranceMs = 60_000;

export function nodeFindings(version: string): Finding[] {
  const major = Number(version.split('.')[0]);
  const about = 'Node';
  if (major >= leastNode) return [good(about, `version ${version}`)];
  return [
    bad(about, `version ${version}; ${leastNode} is needed`, 'Start with npm, which brings its own Node 24.'),
  ];
}

/** Whether the data folder can be written, and how much room its disk has. */
export async function dataFolderFindings(dataFolder: string): Promise<Finding[]> {
  const about = 'data folder';
  const found = await stat(dataFolder).catch(() => null);
  if (found === null) return [await unmadeFolder(dataFolder)];
  if (!found.isDirectory())
    return [bad(about, `${dataFolder} is a file`, 'Set dataFolder to a folder, or move the file away.')];
  const probe = join(dataFolder, `.doctor-${process.pid}`);
  try {
    await writeFile(probe, 'x');
    await rm(probe);
  } catch (error) {
    const { message } = error as Error;
    return [
      bad(
        about,
        `${dataFolder} cannot be written (${message})`,
        'See who owns it, and whether the disk is full.',
      ),
    ];
  }
  return [good(about, `${dataFolder} can be written`), diskFinding(await statfs(dataFolder))];
}

/** A first start makes it: then the nearest folder that is there counts. */
async function unmadeFolder(dataFolder: string): Promise<Finding> {
  const about = 'data folder';
  let parent = dirname(resolve(dataFolder));
  while ((await stat(parent).catch(() => null)) === null) parent = dirname(parent);
  const mayWrite = await access(parent, constants.W_OK).then(
    () => true,
    () => false,
  );
  if (mayWrite) return good(about, `${dataFolder} is not there yet; the first start makes it`);
  const doNext = 'Set dataFolder to a place this account may write to.';
  return bad(about, `${dataFolder} is not there and cannot be made: ${parent} cannot be written`, doNext);
}

/** Room on a disk, as the system tells it: blocks to be had, of how many, of how many bytes. */
export function diskFinding({
  bavail,
  bsize,
  blocks,
}: Record<'bavail' | 'bsize' | 'blocks', number>): Finding {
  const free = bavail * bsize;
  const share = Math.round((bavail / Math.max(1, blocks)) * 100);
  const text = `${(free / 1e9).toFixed(1)} GB free (${share} %)`;
  const doNext = 'Make room, or set series.rawDays so that old raw readings are removed; roll-ups stay.';
  if (free < tooLowBytes) return bad('disk', text, doNext);
  return free < lowBytes ? warning('disk', text, doNext) : good('disk', text);
}

/** A time somebody else told, and who. */
export interface OtherClock {
  readonly who: string;
  readonly timeMs: number;
  /** Our time when it was told. */
  readonly askedMs: number;
}

/**
 * Compares this machine's clock with what others say, and with the past: files cannot have been written in the future,
 * nor a program be older than the time it was made.
 */
export function clockFindings(
  nowMs: number,
  newestFileMs: number | null,
  others: readonly OtherClock[],
): Finding[] {
  const about = 'clock';
  const doNext = 'Set the clock, or have it set (timedatectl set-ntp true): readings are judged by time.';
  const shown = new Date(nowMs).toISOString();
  if (newestFileMs !== null && newestFileMs > nowMs + toleranceMs) {
    const text = `it says ${shown}, but files here were written later than that`;
    return [bad(about, text, doNext)];
  }
  const off = others.filter(({ timeMs, askedMs }) => Math.abs(timeMs - askedMs) > toleranceMs);
  if (off.length > 0)
    return off.map(({ who, timeMs, askedMs }) => {
      const seconds = Math.round((askedMs - timeMs) / 1000);
      const text = `${Math.abs(seconds)} s ${seconds > 0 ? 'ahead of' : 'behind'} ${who}`;
      return warning(about, text, doNext);
    });
  if (others.length === 0) return [good(about, `it says ${shown} UTC; nobody else was asked`)];
  return [good(about, `agrees with ${others.map(({ who }) => who).join(', ')}`)];
}

/** Newest time of the files directly in some folders; null when there are none. */
export async function newestFileMs(folders: readonly string[]): Promise<number | null> {
  let newest: number | null = null;
  for (const folder of folders) {
    const names = await readdir(folder).catch(() => []);
    for (const name of names) {
      const found = await stat(join(folder, name)).catch(() => null);
      if (found !== null) newest = Math.max(newest ?? 0, found.mtimeMs);
    }
  }
  return newest;
}

/** Whole days, for people. */
export const daysBetween = (fromMs: number, toMs: number): number => Math.floor((toMs - fromMs) / dayMs);
