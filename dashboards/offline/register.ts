/** Has the browser keep the screens' files. Browsers allow it over HTTPS and on localhost only; elsewhere nothing happens. */
export function keepScreensOffline(): void {
  if (!('serviceWorker' in navigator) || import.meta.env.DEV) return;
  addEventListener('load', () => {
    // Without it everything works but opening the app without a link.
    navigator.serviceWorker.register('/sw.js').catch(() => {});
  });
}
