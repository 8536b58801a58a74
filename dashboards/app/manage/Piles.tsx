import type { PileView } from '../../../shared/api/types.ts';
import { methodNames, pileMethods } from '../../../shared/yard/method.ts';
import { api } from '../../common/api.ts';
import { day } from '../../common/format.ts';
import { serverNowMs } from '../../common/live.ts';
import { Sentence } from '../../common/Sentence.tsx';
import { Field, Form } from '../Form.tsx';
import { linkTo } from '../route.ts';
import { useFetched } from '../useFetched.ts';
import { Add } from './Add.tsx';
import { text } from './words.ts';

const dayMs = 86_400_000;
const methodChoices = pileMethods.map((method) => [method, methodNames[method]] as const);

/** Start a pile, end a pile. */
export function Piles() {
  const { data, failure, refetch } = useFetched<PileView[]>('/api/piles');
  const start = async ({ name, place, method, daysAgo }: Readonly<Record<string, string>>) => {
    const startedMs = Math.round(serverNowMs.value - Number(daysAgo || 0) * dayMs);
    await api.post('/api/piles', { name, place, method, startedMs });
    await refetch();
  };
  return (
    <>
      {failure && <p class="wrong">{failure}</p>}
      <Add title={text.startPile} open={data?.length === 0}>
        <Form button={text.startThisPile} onSend={start}>
          {(wrong) => (
            <>
              <Field
                label={text.pileName}
                name="name"
                hint={text.pileNameHint}
                error={wrong('name')}
                required
              />
              <Field label={text.place} name="place" hint={text.placeHint} error={wrong('place')} required />
              <Field label={text.method} name="method" choices={methodChoices} error={wrong('method')} />
              <Field
                label={text.builtDaysAgo}
                name="daysAgo"
                type="number"
                min="0"
                step="any"
                value="0"
                error={wrong('startedMs')}
              />
            </>
          )}
        </Form>
      </Add>
      <ul class="log">
        {data?.map((pile) => (
          <li key={pile.id}>
            <Sentence
              of={text.pileRow}
              with={{
                name: <a href={linkTo('piles', pile.id)}>{pile.name}</a>,
                place: pile.place,
                method: methodNames[pile.method],
                day: day(pile.startedMs),
              }}
            />
            {pile.endedMs !== null ? (
              text.pileEnded(day(pile.endedMs))
            ) : (
              <EndButton pile={pile} onDone={refetch} />
            )}
          </li>
        ))}
      </ul>
    </>
  );
}

function EndButton({ pile, onDone }: { readonly pile: PileView; readonly onDone: () => Promise<void> }) {
  const end = async () => {
    await api.post(`/api/piles/${encodeURIComponent(pile.id)}/end`, {
      endedMs: Math.round(serverNowMs.value),
    });
    await onDone();
  };
  return (
    <details>
      <summary>{text.endIt}</summary>
      <p>{text.endItHint}</p>
      <Form button={text.endPile(pile.name)} onSend={end}>
        {() => null}
      </Form>
    </details>
  );
}
