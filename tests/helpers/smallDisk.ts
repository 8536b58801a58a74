import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmdirSync, rmSync, statfsSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** A disk of its own that can be filled up without harm to the machine's. */
export interface SmallDisk {
  readonly path: string;
  /** Writes a file until only about this many bytes are free; 0 until nothing fits any more. */
  fill(leaveBytes: number): void;
  /** Removes that file again. */
  free(): void;
  freeFraction(): number;
  remove(): void;
}

export const smallDiskMissing = 'a small disk cannot be mounted here (Linux, as root)';

/** Mounts an empty file system of this size, held in memory. */
export function mountSmallDisk(megabytes: number): SmallDisk {
  const path = mkdtempSync(join(tmpdir(), 'tilth-disk-'));
  const options = `size=${megabytes}m,mode=0755`;
  execFileSync('mount', ['-t', 'tmpfs', '-o', options, 'tilth-test', path], { stdio: 'ignore' });
  const filler = join(path, 'filler');
  return {
    path,
    fill(leaveBytes) {
      rmSync(filler, { force: true });
      const { bavail, bsize } = statfsSync(path);
      const bytes = Math.max(0, bavail * bsize - leaveBytes);
      try {
        writeFileSync(filler, Buffer.alloc(bytes));
      } catch (error) {
        // Others write meanwhile: the last bytes may be theirs, and then it is as full as can be.
        if ((error as NodeJS.ErrnoException).code !== 'ENOSPC') throw error;
      }
    },
    free: () => rmSync(filler, { force: true }),
    freeFraction() {
      const { bavail, blocks } = statfsSync(path);
      return bavail / blocks;
    },
    remove() {
      execFileSync('umount', ['--lazy', path], { stdio: 'ignore' });
      rmdirSync(path);
    },
  };
}

/** Whether this account may mount one. */
export const canMountSmallDisk = ((): boolean => {
  try {
    mountSmallDisk(1).remove();
    return true;
  } catch {
    return false;
  }
})();
