import { useState } from 'preact/hooks';
import type {
  LatestReading,
  PileView,
  PlacementView,
  ProbeCredential,
  ProbeView,
} from '../../../shared/api/types.ts';
import { guessQuantity } from '../../../shared/readings/guessQuantity.ts';
import { api } from '../../common/api.ts';
import { age } from '../../common/format.ts';
import { serverNowMs } from '../../common/live.ts';
import { locale, positionWords, words } from '../../common/words.ts';
import { Form } from '../Form.tsx';
import { Credential } from '../probes/Credential.tsx';
import { Enrol } from '../probes/Enrol.tsx';
import { FirstReading } from '../probes/FirstReading.tsx';
import { NewPassword } from '../probes/NewPassword.tsx';
import { PlaceForm } from '../probes/PlaceForm.tsx';
import { shownValue } from '../probes/shownValue.ts';
import { text } from '../probes/words.ts';
import { reasonWords } from '../reasonWords.ts';
import { mayAct } from '../session.ts';
import { useFetched } from '../useFetched.ts';
import { Add } from './Add.tsx';

/** Probes: their credentials, what they send, and where each channel stands. */
export function Probes() {
  const probes = useFetched<ProbeView[]>('/api/probes', ({ kind }) => kind === 'probe' || kind === 'pile');
  const piles = useFetched<PileView[]>('/api/piles');
  const placements = useFetched<PlacementView[]>('/api/placements');
  const [made, setMade] = useState<ProbeCredential | null>(null);
  const take = async (credential: ProbeCredential) => {
    setMade(credential);
    await probes.refetch();
  };
  const open = piles.data?.filter(({ endedMs }) => endedMs === null) ?? [];
  return (
    <>
      {probes.failure && <p class="wrong">{probes.failure}</p>}
      {made && (
        <>
          <Credential made={made} />
          <FirstReading key={made.probe.id} probe={made.probe} />
        </>
      )}
      {mayAct('owner') && (
        <Add title={text.addProbe} open={probes.data?.length === 0}>
          <Enrol onMade={take} />
        </Add>
      )}
      <div class="cards">
        {[...(probes.data ?? [])].sort(byLabel).map((probe) => (
          <ProbeCard
            key={probe.id}
            probe={probe}
            piles={open}
            placements={placements.data ?? []}
            onDone={placements.refetch}
            onMade={take}
          />
        ))}
      </div>
    </>
  );
}

const collator = new Intl.Collator(locale, { numeric: true });
/** Newest first would jump about as labels are changed; people look for a label. */
const byLabel = (one: ProbeView, other: ProbeView) => collator.compare(one.label, other.label);

interface ProbeCardProps {
  readonly probe: ProbeView;
  readonly piles: readonly PileView[];
  readonly placements: readonly PlacementView[];
  readonly onDone: () => Promise<void>;
  readonly onMade: (made: ProbeCredential) => Promise<void>;
}

function ProbeCard({ probe, piles, placements, onDone, onMade }: ProbeCardProps) {
  return (
    <article class="card">
      <h2>
        {probe.label} {probe.revokedMs !== null && <span class="hint">{text.revoked}</span>}
      </h2>
      <p class="hint">{probe.id}</p>
      {probe.channels.length === 0 && <p>{text.nothingYet}</p>}
      {probe.channels.map(({ channel, latest }) => {
        const standing = placements.find(
          (placement) => placement.channel === channel && placement.toMs === null,
        );
        const leaf = channel.slice(probe.id.length + 1);
        return (
          <div key={channel} class="channel">
            <strong>{leaf}</strong>:{' '}
            {latest ? (
              <Latest latest={latest} shown={shown(latest.value, leaf, standing)} />
            ) : (
              words.noReading
            )}
            {latest && <span class="hint"> {age(serverNowMs.value - latest.timeMs)}</span>}
            <Standing channel={channel} leaf={leaf} standing={standing} piles={piles} onDone={onDone} />
          </div>
        );
      })}
      {mayAct('owner') && <ProbeAccess probe={probe} onMade={onMade} onDone={onDone} />}
    </article>
  );
}

/** What a channel sent last; struck out, with why, when it is not believed. */
function Latest({ latest, shown }: { readonly latest: LatestReading; readonly shown: string }) {
  if (latest.quality === 'good') return <>{shown}</>;
  return (
    <>
      <s>{shown}</s> <span class="wrong">{reasonWords(latest.reason)}</span>
    </>
  );
}

function shown(value: number, leaf: string, standing: PlacementView | undefined): string {
  return shownValue(value, standing?.quantity ?? guessQuantity(leaf));
}

interface StandingProps {
  readonly channel: string;
  readonly leaf: string;
  readonly standing: PlacementView | undefined;
  readonly piles: readonly PileView[];
  readonly onDone: () => Promise<void>;
}

/** Where a channel stands now, with the way to take it out or to put it somewhere. */
function Standing({ channel, leaf, standing, piles, onDone }: StandingProps) {
  if (standing) {
    const where = piles.find(({ id }) => id === standing.pileId)?.name ?? text.theYard;
    const takeOut = async () => {
      await api.post(`/api/placements/${encodeURIComponent(standing.id)}/end`, {
        toMs: Math.round(serverNowMs.value),
      });
      await onDone();
    };
    return (
      <details>
        <summary>
          {standing.depthMetres === null
            ? text.standsIn(where, positionWords[standing.position])
            : text.standsDeep(where, positionWords[standing.position], standing.depthMetres)}
        </summary>
        <Form button={text.takenOut} onSend={takeOut}>
          {() => null}
        </Form>
      </details>
    );
  }
  return (
    <details>
      <summary>{text.notPlaced}</summary>
      <PlaceForm channel={channel} quantity={guessQuantity(leaf)} piles={piles} onDone={onDone} />
    </details>
  );
}

interface ProbeAccessProps {
  readonly probe: ProbeView;
  readonly onMade: (made: ProbeCredential) => Promise<void>;
  readonly onDone: () => Promise<void>;
}

/** A new password, or none any more. */
function ProbeAccess({ probe, onMade, onDone }: ProbeAccessProps) {
  const shutOut = async () => {
    await api.post(`/api/probes/${encodeURIComponent(probe.id)}/revoke`);
    await onDone();
  };
  return (
    <details>
      <summary>
        {text.access} <span class="visually-hidden">{probe.label}</span>
      </summary>
      <NewPassword probe={probe} onMade={onMade} />
      {probe.revokedMs === null && (
        <Form button={text.shutOut} onSend={shutOut}>
          {() => <p class="hint">{text.shutOutHint}</p>}
        </Form>
      )}
    </details>
  );
}
