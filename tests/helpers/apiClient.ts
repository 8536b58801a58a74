/** A signed-in browser without the browser: keeps the session cookie and sends the header every change needs. */
export interface ApiClient {
  get<T>(path: string): Promise<T>;
  post<T>(path: string, body?: unknown): Promise<T>;
  put<T>(path: string, body: unknown): Promise<T>;
}

/** Throws with the service's own words when it refuses. */
export function createApiClient(url: string): ApiClient {
  let cookie = '';
  async function call<T>(method: string, path: string, body?: unknown): Promise<T> {
    const answer = await fetch(`${url}${path}`, {
      method,
      headers: {
        ...(cookie === '' ? {} : { cookie }),
        ...(method === 'GET' ? {} : { 'x-tilth-request': '1', origin: url }),
        ...(body === undefined ? {} : { 'content-type': 'application/json' }),
      },
      ...(body === undefined ? {} : { body: JSON.stringify(body) }),
    });
    const set = answer.headers.getSetCookie().map((line) => line.split(';')[0]!);
    if (set.length > 0) cookie = set.join('; ');
    const text = await answer.text();
    if (!answer.ok) throw new Error(`${method} ${path}: ${answer.status} ${text}`);
    return JSON.parse(text) as T;
  }
  return {
    get: (path) => call('GET', path),
    post: (path, body) => call('POST', path, body),
    put: (path, body) => call('PUT', path, body),
  };
}
