import { localMoment } from '../../../shared/messages/localInstant.ts';

/** `15:05` */
export function timeOfDay(timeZone: string, atMs: number): string {
  const { minute } = localMoment(timeZone, atMs);
  const two = (value: number) => String(value).padStart(2, '0');
  return `${two(Math.floor(minute / 60))}:${two(minute % 60)}`;
}
