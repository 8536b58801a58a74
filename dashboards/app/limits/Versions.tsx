import { useState } from 'preact/hooks';
import type { LimitsVersionView, LimitsView } from '../../../shared/api/types.ts';
import { api } from '../../common/api.ts';
import { dayAndTime } from '../../common/format.ts';
import { Field, Form } from '../Form.tsx';
import { Log } from '../pile/Log.tsx';
import { mayAct } from '../session.ts';
import { Changes } from './Changes.tsx';
import { changesBetween } from './trial.ts';
import { limitWords } from './words.ts';

interface VersionsProps {
  readonly view: LimitsView;
  readonly onChanged: (view: LimitsView) => void;
}

/** Every set of limits this pile has had: who, when, why, what changed, and the way back. */
export function Versions({ view, onChanged }: VersionsProps) {
  const [going, setGoing] = useState<number | null>(null);
  const older = (version: number) => view.history.find((one) => one.version === version - 1)?.overrides ?? {};
  const send = async ({ reason }: Readonly<Record<string, string>>) => {
    const answer = await api.post<LimitsView>(`/api/piles/${encodeURIComponent(view.pileId)}/limits/undo`, {
      expectedVersion: view.current.version,
      toVersion: going,
      reason,
    });
    setGoing(null);
    onChanged(answer);
  };
  const all: readonly LimitsVersionView[] = [...view.history, methodsOwn];
  const now = view.current.version;
  return (
    <section aria-labelledby="versions-title">
      <h2 id="versions-title">{limitWords.history}</h2>
      {mayAct('keeper') && now > 0 && (
        <p class="buttons">
          <button type="button" class="quiet" onClick={() => setGoing(now - 1)}>
            {limitWords.undo}
          </button>
        </p>
      )}
      {going !== null && (
        <div class="card">
          <Changes
            changes={changesBetween(
              view.conditions,
              view.current.overrides,
              all.find(({ version }) => version === going)?.overrides ?? {},
            )}
          />
          <Form button={limitWords.goBackNow(going)} onSend={send}>
            {(wrong) => <Field label={limitWords.reason} name="reason" error={wrong('reason')} required />}
          </Form>
        </div>
      )}
      <Log entries={all} first={4}>
        {(one) => (
          <li key={one.version}>
            <strong>
              {one.version === now ? limitWords.versionInForce(now) : limitWords.version(one.version)}
            </strong>{' '}
            <span class="hint">
              {one.version === 0 ? limitWords.methodsOwn : `${dayAndTime(one.savedMs)}, ${one.by ?? ''}`}
            </span>
            {one.reason !== '' && <p class="version-reason">{one.reason}</p>}
            {one.version > 0 && (
              <Changes changes={changesBetween(view.conditions, older(one.version), one.overrides)} />
            )}
            {mayAct('keeper') && one.version !== now && (
              <button
                type="button"
                class="quiet small"
                aria-label={limitWords.goBackTo(one.version)}
                onClick={() => setGoing(one.version)}
              >
                {limitWords.goBack}
              </button>
            )}
          </li>
        )}
      </Log>
    </section>
  );
}

const methodsOwn: LimitsVersionView = { version: 0, overrides: {}, reason: '', by: null, savedMs: 0 };
