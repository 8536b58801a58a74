import type { PileView } from '../../../shared/api/types.ts';
import { methodNames, pileMethods } from '../../../shared/yard/method.ts';
import { api } from '../../common/api.ts';
import { day } from '../../common/format.ts';
import { serverNowMs } from '../../common/live.ts';
import { Field, Form } from '../Form.tsx';
import { linkTo } from '../route.ts';
import { useFetched } from '../useFetched.ts';
import { Add } from './Add.tsx';

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
      <Add title="Start a pile" open={data?.length === 0}>
        <Form button="Start this pile" onSend={start}>
          {(wrong) => (
            <>
              <Field
                label="Name"
                name="name"
                hint="Short: it goes into texts."
                error={wrong('name')}
                required
              />
              <Field
                label="Where it stands"
                name="place"
                hint="Bay 3, by the east fence..."
                error={wrong('place')}
                required
              />
              <Field label="How it is run" name="method" choices={methodChoices} error={wrong('method')} />
              <Field
                label="Built how many days ago"
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
            <a href={linkTo('piles', pile.id)}>{pile.name}</a>, {pile.place}: {methodNames[pile.method]},
            built {day(pile.startedMs)}
            {pile.endedMs !== null ? (
              `, ended ${day(pile.endedMs)}`
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
      <summary>End it</summary>
      <p>It leaves the wall and is judged no more; its record stays.</p>
      <Form button={`End ${pile.name}`} onSend={end}>
        {() => null}
      </Form>
    </details>
  );
}
