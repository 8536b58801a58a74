import type { WallSettings } from './settings.ts';

type NightSettings = Pick<WallSettings, 'night' | 'nightFromHour' | 'nightToHour'>;

/** Whether the wall shows its dark face at an hour (0 to 23) of the yard's day; a night runs over midnight. */
export function isNight({ night, nightFromHour, nightToHour }: NightSettings, hour: number): boolean {
  if (night !== 'clock') return night === 'always';
  if (nightFromHour <= nightToHour) return hour >= nightFromHour && hour < nightToHour;
  return hour >= nightFromHour || hour < nightToHour;
}
