import { Refusal } from '../../../common/api.ts';
import { pressWords } from './words.ts';

/** What the service would refuse later is refused now, beside its field. @throws Refusal always. */
export function refuseField(field: string, detail: string): never {
  throw new Refusal({
    ...{ type: 'about:blank', title: 'failed', status: 400, code: 'bad-request' },
    ...{ detail: pressWords.wrongField, errors: [{ pointer: `#/${field}`, detail }] },
  });
}
