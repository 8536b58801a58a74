import { useEffect, useState } from 'preact/hooks';
import type { CopiedLimits, LimitsView, PileView } from '../../../shared/api/types.ts';
import { api } from '../../common/api.ts';
import { Field, Form } from '../Form.tsx';
import { failureText } from '../session.ts';
import { Changes } from './Changes.tsx';
import { changesBetween } from './trial.ts';
import { limitWords } from './words.ts';

interface Target {
  readonly pile: PileView;
  readonly limits: LimitsView;
}

/** The saved limits for other piles of the same method, chosen from a list that says what would change in each. */
export function CopyLimits({ view, hasTrial }: { readonly view: LimitsView; readonly hasTrial: boolean }) {
  const [open, setOpen] = useState(false);
  return (
    <details class="copy-limits" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{limitWords.copy}</summary>
      {open && (
        <>
          <p class="hint">
            {limitWords.copyHint} {hasTrial && limitWords.copyUnsaved}
          </p>
          <CopyForm key={view.current.version} view={view} />
        </>
      )}
    </details>
  );
}

function CopyForm({ view }: { readonly view: LimitsView }) {
  const [targets, setTargets] = useState<readonly Target[] | null>(null);
  const [chosen, setChosen] = useState<readonly string[]>([]);
  const [said, setSaid] = useState<string | null>(null);
  const fetchTargets = () => targetsOf(view).then(setTargets, (error) => setSaid(failureText(error)));
  useEffect(() => void fetchTargets(), []);
  const send = async ({ reason }: Readonly<Record<string, string>>) => {
    const to = (targets ?? [])
      .filter(({ pile }) => chosen.includes(pile.id))
      .map(({ pile, limits }) => ({ pileId: pile.id, expectedVersion: limits.current.version }));
    const path = `/api/piles/${encodeURIComponent(view.pileId)}/limits/copy`;
    const { copied, changedMeanwhile } = await api.post<CopiedLimits>(path, { to, reason });
    const names = (targets ?? [])
      .filter(({ pile }) => changedMeanwhile.includes(pile.id))
      .map(({ pile }) => pile.name);
    const lost = names.length === 0 ? '' : ` ${limitWords.copyChanged(names.join(', '))}`;
    setSaid(limitWords.copied(copied.length) + lost);
    setChosen([]);
    await fetchTargets();
  };
  const flip = (id: string) =>
    setChosen(chosen.includes(id) ? chosen.filter((one) => one !== id) : [...chosen, id]);
  if (targets === null) return <p class="hint">{said ?? limitWords.copyLooking}</p>;
  if (targets.length === 0) return <p class="hint">{limitWords.copyNone}</p>;
  return (
    <>
      <ul class="copy-targets">
        {targets.map(({ pile, limits }) => {
          const changes = changesBetween(view.conditions, limits.current.overrides, view.current.overrides);
          return (
            <li key={pile.id}>
              <label class="tick">
                <input
                  type="checkbox"
                  checked={chosen.includes(pile.id)}
                  disabled={changes.length === 0}
                  onChange={() => flip(pile.id)}
                />{' '}
                {pile.name} <span class="hint">{pile.place}</span>
              </label>
              {changes.length === 0 ? (
                <p class="hint">{limitWords.copyNothing}</p>
              ) : (
                <Changes changes={changes} />
              )}
            </li>
          );
        })}
      </ul>
      {chosen.length > 0 && (
        <Form button={limitWords.copyButton(chosen.length)} onSend={send}>
          {(wrong) => <Field label={limitWords.reason} name="reason" error={wrong('reason')} required />}
        </Form>
      )}
      {said && <p role="status">{said}</p>}
    </>
  );
}

async function targetsOf(view: LimitsView): Promise<Target[]> {
  const piles = await api.get<readonly PileView[]>('/api/piles');
  const others = piles.filter(
    ({ id, method, endedMs }) => id !== view.pileId && method === view.method && endedMs === null,
  );
  return Promise.all(
    others.map(async (pile) => ({
      pile,
      limits: await api.get<LimitsView>(`/api/piles/${encodeURIComponent(pile.id)}/limits`),
    })),
  );
}
