/** Whether this browser can be told at all, and if not, what is in the way. */
export type PushAbility = 'can' | 'no-https' | 'home-screen-first' | 'cannot';

export function pushAbility(): PushAbility {
  if (!isSecureContext) return 'no-https';
  const hasAll = 'serviceWorker' in navigator && 'PushManager' in globalThis && 'Notification' in globalThis;
  if (hasAll) return 'can';
  return /iPhone|iPad/.test(navigator.userAgent) ? 'home-screen-first' : 'cannot';
}

/** The subscription of this very browser; null when there is none. */
export async function ownSubscription(): Promise<PushSubscription | null> {
  const registration = await navigator.serviceWorker.getRegistration();
  return (await registration?.pushManager.getSubscription()) ?? null;
}

/**
 * Has this browser subscribe. The browser asks its person for permission only now, upon their press.
 * @returns null when they said no
 */
export async function subscribe(publicKey: string): Promise<PushSubscriptionJSON | null> {
  if ((await Notification.requestPermission()) !== 'granted') return null;
  const registration = await navigator.serviceWorker.ready;
  const options = { userVisibleOnly: true, applicationServerKey: publicKey };
  try {
    return (await registration.pushManager.subscribe(options)).toJSON();
  } catch (error) {
    // Bound to another key (the yard was set up anew): that one is of no use any more.
    const old = await registration.pushManager.getSubscription();
    if (old === null) throw error;
    await old.unsubscribe();
    return (await registration.pushManager.subscribe(options)).toJSON();
  }
}
