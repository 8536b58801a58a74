import type { Press } from './press.ts';

/** Presses kept on this device, through closed pages and flat batteries. */
const databaseName = 'tilth-presses';
const storeName = 'presses';

let opened: Promise<IDBDatabase> | null = null;

function open(): Promise<IDBDatabase> {
  opened ??= new Promise((resolve, reject) => {
    const request = indexedDB.open(databaseName, 1);
    request.onupgradeneeded = () => request.result.createObjectStore(storeName, { keyPath: 'key' });
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
  return opened;
}

async function inStore<T>(
  mode: IDBTransactionMode,
  work: (store: IDBObjectStore) => IDBRequest<T>,
): Promise<T> {
  const transaction = (await open()).transaction(storeName, mode, { durability: 'strict' });
  const request = work(transaction.objectStore(storeName));
  return new Promise((resolve, reject) => {
    transaction.oncomplete = () => resolve(request.result);
    transaction.onabort = transaction.onerror = () => reject(transaction.error);
  });
}

export const pressStore = {
  all: () => inStore<Press[]>('readonly', (store) => store.getAll()),
  put: (press: Press) => inStore('readwrite', (store) => store.put(press)),
  remove: (key: string) => inStore('readwrite', (store) => store.delete(key)),
};
