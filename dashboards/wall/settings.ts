import { signal } from '@preact/signals';
import type { WallOrder } from '../../shared/api/wallOrder.ts';

/** How this one screen shows the wall; kept in its browser, for every screen hangs somewhere else. */
export interface WallSettings {
  readonly order: WallOrder;
  /** Every pile at once, or only as many as can be read from five metres, in turn. */
  readonly show: 'all' | 'far';
  readonly diagonalInches: number;
  /** Dark by the yard's clock, never (a bright shed), or always (a dark room). */
  readonly night: 'clock' | 'never' | 'always';
  readonly nightFromHour: number;
  readonly nightToHour: number;
}

export const usualSettings: WallSettings = {
  order: 'worst',
  show: 'all',
  diagonalInches: 55,
  night: 'clock',
  nightFromHour: 21,
  nightToHour: 6,
};

const key = 'tilth-wall-settings';

export const settings = signal<WallSettings>(read());

function read(): WallSettings {
  try {
    return { ...usualSettings, ...JSON.parse(localStorage.getItem(key) ?? '{}') };
  } catch {
    return usualSettings;
  }
}

export function changeSettings(change: Partial<WallSettings>): void {
  settings.value = { ...settings.value, ...change };
  try {
    localStorage.setItem(key, JSON.stringify(settings.value));
  } catch {
    // A browser that keeps nothing still shows what was chosen, until it is restarted.
  }
}
