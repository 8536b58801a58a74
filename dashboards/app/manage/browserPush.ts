import type { Priority } from '../../../shared/alarms/alarm.ts';
import { api } from '../../common/api.ts';
import { pushWords } from './pushWords.ts';

/** Browsers push over HTTPS and on localhost only, and some not at all. */
export function pushIsPossible(): boolean {
  return 'serviceWorker' in navigator && 'PushManager' in globalThis && 'Notification' in globalThis;
}

/** This browser's own subscription; null where there is none. */
export async function ownSubscription(): Promise<PushSubscription | null> {
  if (!pushIsPossible()) return null;
  const registration = await navigator.serviceWorker.getRegistration();
  return (await registration?.pushManager.getSubscription()) ?? null;
}

/** Asks the person, has the browser subscribe (W3C Push API) and tells the service. */
export async function subscribe(publicKey: string, toldFrom: Priority): Promise<void> {
  if ((await Notification.requestPermission()) !== 'granted') throw new Error(pushWords.refused);
  const { pushManager } = await navigator.serviceWorker.ready;
  const subscription = await pushManager.subscribe({
    userVisibleOnly: true,
    applicationServerKey: publicKey,
  });
  const { endpoint, keys } = subscription.toJSON();
  await api.post('/api/push', { subscription: { endpoint, keys }, toldFrom });
}

export async function unsubscribe(): Promise<void> {
  await (await ownSubscription())?.unsubscribe();
}
