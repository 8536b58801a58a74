import type { ContactWayView } from '../../../shared/api/types.ts';
import { api } from '../../common/api.ts';
import { priorityWords } from '../../common/words.ts';
import { Field, Form } from '../Form.tsx';
import { Add } from './Add.tsx';
import { TextsFrom } from './TextsFrom.tsx';
import { channelTitles, text } from './words.ts';

/** Where a way leads, as far as that is anybody's business: of a browser only that it is one. */
export function wayWords({ channel, address, toldFrom }: ContactWayView): string {
  const where = channel === 'web-push' ? channelTitles['web-push'] : address;
  return text.toldAt(where, priorityWords[toldFrom]);
}

interface ContactWaysProps {
  readonly personId: string;
  readonly ways: readonly ContactWayView[];
  readonly onDone: () => Promise<void>;
}

/** E-mail and web addresses beside the phone. Browsers join by themselves, on the page of whoever holds them. */
export function ContactWays({ personId, ways, onDone }: ContactWaysProps) {
  const add = (channel: 'email' | 'webhook') => async (fields: Readonly<Record<string, string>>) => {
    const way = { channel, address: fields.address, toldFrom: fields.toldFrom };
    await api.post(`/api/people/${encodeURIComponent(personId)}/contact-ways`, way);
    await onDone();
  };
  const remove = async (id: string) => {
    await api.remove(`/api/contact-ways/${encodeURIComponent(id)}`);
    await onDone();
  };
  return (
    <section class="ways" aria-label={text.ways}>
      <h3>{text.ways}</h3>
      <ul class="log">
        {ways.map((way) => (
          <li key={way.id}>
            {wayWords(way)}
            {way.goneMs !== null && <span class="wrong"> {text.gone(way.goneDetail ?? '')}</span>}
            <Form button={text.remove} onSend={() => remove(way.id)}>
              {() => null}
            </Form>
          </li>
        ))}
      </ul>
      <Add title={text.byEmail} open={false}>
        <Form key={ways.length} button={text.addEmail} onSend={add('email')}>
          {(wrong) => (
            <>
              <Field label={text.wayEmail} name="address" type="email" error={wrong('address')} required />
              <TextsFrom label={text.toldFrom} name="toldFrom" value="high" />
            </>
          )}
        </Form>
      </Add>
      <Add title={text.byWebhook} open={false}>
        <Form key={ways.length} button={text.addWebhook} onSend={add('webhook')}>
          {(wrong) => (
            <>
              <Field label={text.wayWebhook} name="address" type="url" error={wrong('address')} required />
              <TextsFrom label={text.toldFrom} name="toldFrom" value="high" />
            </>
          )}
        </Form>
      </Add>
    </section>
  );
}
