import { useEffect } from 'preact/hooks';
import type { ProbeContactView, ProbeView, RecentView } from '../../../shared/api/types.ts';
import { age, clockTime, duration } from '../../common/format.ts';
import { reasonWords } from '../reasonWords.ts';
import { setAsideAdvice } from '../setAsideAdvice.ts';
import { usePolled } from '../usePolled.ts';
import { shownValue } from './shownValue.ts';
import { text } from './words.ts';

/** A clock this far off is worth a word (the alarm about it begins at ten minutes). */
const noticedMs = 60_000;

interface FirstReadingProps {
  readonly probe: ProbeView;
  /** Called once, when something has come. */
  readonly onArrived?: () => Promise<void>;
}

/** Waits for a probe's first message and tells what comes: readings, a wrong password, or what was refused and why. */
export function FirstReading({ probe, onArrived }: FirstReadingProps) {
  const id = encodeURIComponent(probe.id);
  const contact = usePolled<ProbeContactView>(`/api/probes/${id}/contact`);
  const recent = usePolled<RecentView>(`/api/channels/recent?minutes=60&probeId=${id}`);
  const channels = recent.data?.channels.filter(({ points }) => points.length > 0) ?? [];
  const hasCome = channels.length > 0;
  useEffect(() => {
    if (hasCome) void onArrived?.();
  }, [hasCome]);
  return (
    <section class={`card first-reading${hasCome ? ' has-come' : ''}`} aria-live="polite">
      <h3>{probe.label}</h3>
      {(contact.failure ?? recent.failure) && <p class="wrong">{contact.failure ?? recent.failure}</p>}
      {hasCome ? <Arrived probe={probe} channels={channels} nowMs={recent.data!.nowMs} /> : <Waiting />}
      {contact.data && <Troubles contact={contact.data} probe={probe} hasCome={hasCome} />}
    </section>
  );
}

function Waiting() {
  return (
    <p>
      <span class="waiting-mark" aria-hidden="true" /> <strong>{text.waiting}</strong>{' '}
      <span class="hint">{text.waitingHint}</span>
    </p>
  );
}

interface ArrivedProps {
  readonly probe: ProbeView;
  readonly channels: RecentView['channels'];
  readonly nowMs: number;
}

function Arrived({ probe, channels, nowMs }: ArrivedProps) {
  return (
    <>
      <p>
        <strong>{text.arrived}</strong>
      </p>
      <ul class="arrived">
        {channels.map(({ channel, quantity, points }) => {
          const last = points.at(-1)!;
          return (
            <li key={channel}>
              <span>{channel.slice(probe.id.length + 1)}</span>{' '}
              <strong>{shownValue(last.value, quantity)}</strong>{' '}
              <span class="hint">{age(nowMs - last.timeMs)}</span>
              {last.quality !== 'good' && (
                <span class="wrong"> {text.doubted(reasonWords(last.reason))}</span>
              )}
            </li>
          );
        })}
      </ul>
    </>
  );
}

interface TroublesProps {
  readonly contact: ProbeContactView;
  readonly probe: ProbeView;
  readonly hasCome: boolean;
}

/** What went wrong on the way. Once readings come, earlier knocks no longer matter. */
function Troubles({ contact, probe, hasCome }: TroublesProps) {
  const { refusedSignIn, strangers, setAside, clockAheadMs, connected } = contact;
  const stranger = strangers[0];
  return (
    <>
      {!hasCome && connected === true && setAside.length === 0 && <p>{text.connected}</p>}
      {!hasCome && refusedSignIn && (
        <p class="wrong-note">
          <strong>
            {refusedSignIn.count > 1
              ? text.refusedOften(clockTime(refusedSignIn.atMs), refusedSignIn.count)
              : text.refused(clockTime(refusedSignIn.atMs))}
          </strong>{' '}
          {text.refusedHint}
        </p>
      )}
      {!hasCome && !refusedSignIn && stranger && (
        <p class="wrong-note">
          <strong>{text.stranger(stranger.name)}</strong> {text.strangerHint}{' '}
          <span class="secret">{probe.id}</span>
        </p>
      )}
      {setAside[0] && (
        <div class="wrong-note">
          <strong>{text.setAside}</strong>
          <p>
            {setAside[0].reason} <span class="hint">({clockTime(setAside[0].receivedMs)})</span>
          </p>
          <p>{setAsideAdvice(setAside[0].reason)}</p>
          <pre>{setAside[0].payloadText ?? setAside[0].payloadHex}</pre>
        </div>
      )}
      {hasCome && clockAheadMs !== null && Math.abs(clockAheadMs) > noticedMs && (
        <p class="wrong-note">
          {(clockAheadMs > 0 ? text.clockAhead : text.clockBehind)(duration(Math.abs(clockAheadMs)))}{' '}
          {clockAheadMs > 0 && text.clockHint}
        </p>
      )}
    </>
  );
}
