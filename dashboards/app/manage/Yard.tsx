import type { DutyView, SettingsView } from '../../../shared/api/types.ts';
import { dayAndTime } from '../../common/format.ts';
import { Sentence } from '../../common/Sentence.tsx';
import { linkTo } from '../route.ts';
import { useFetched } from '../useFetched.ts';
import { heartbeatExample, helpCommand, text } from './words.ts';
import { YardSettings } from './YardForm.tsx';

/** The yard's own settings, and what of the configuration an owner should know. */
export function Yard() {
  const settings = useFetched<SettingsView>('/api/settings', () => false);
  const duty = useFetched<DutyView>('/api/duty', () => false);
  return (
    <>
      <p>{text.yardLead}</p>
      <YardSettings />
      <h2>{text.watcherTitle}</h2>
      {settings.failure && <p class="wrong">{settings.failure}</p>}
      {settings.data && <Heartbeat heartbeat={settings.data.heartbeat} />}
      {duty.data && <AllWell plan={duty.data.plan} />}
      {settings.data && (
        <p>
          {settings.data.outageMinutes === null ? text.outageOff : text.outageOn(settings.data.outageMinutes)}
        </p>
      )}
      {settings.data && <Reach settings={settings.data} />}
      <p class="hint">
        <Sentence of={text.configHint} with={{ command: <code>{helpCommand}</code> }} />
      </p>
    </>
  );
}

function Heartbeat({ heartbeat }: { readonly heartbeat: SettingsView['heartbeat'] }) {
  const { isSet, everyMinutes, lastMs } = heartbeat;
  if (!isSet)
    return (
      <div class="note">
        <p>{text.heartbeatOff}</p>
        <pre>{heartbeatExample}</pre>
      </div>
    );
  const last = lastMs === null ? text.heartbeatNever : text.heartbeatLast(dayAndTime(lastMs));
  return <p>{text.heartbeatOn(everyMinutes, last)}</p>;
}

function AllWell({ plan }: { readonly plan: DutyView['plan'] }) {
  return (
    <p>
      {plan.allWell === null ? text.allWellOff : text.allWellOn(plan.allWell.at)}{' '}
      <a href={linkTo('manage', 'duty')}>{text.allWellChange}</a>
    </p>
  );
}

function Reach({ settings }: { readonly settings: SettingsView }) {
  const { broker, publicUrl, rawDays } = settings;
  const from = (where: string, isOnly: boolean) => (isOnly ? text.thisMachineOnly(where) : where);
  const brokerWords = text.brokerIs(
    `${broker.host}:${broker.port}`,
    broker.isOwn ? text.ownBroker : text.otherBroker,
    broker.tls ? text.withTls : text.plain,
  );
  return (
    <>
      <h2>{text.reachTitle}</h2>
      <dl class="pairs">
        <dt>{text.reachScreens}</dt>
        <dd>{from(publicUrl, settings.screensOnThisMachineOnly)}</dd>
        <dt>{text.reachBroker}</dt>
        <dd>{from(brokerWords, settings.brokerOnThisMachineOnly)}</dd>
        <dt>{text.keepDays}</dt>
        <dd>{rawDays === null ? text.forEver : text.days(rawDays)}</dd>
      </dl>
      {!settings.isHttps && !settings.screensOnThisMachineOnly && <p class="wrong-note">{text.noHttps}</p>}
    </>
  );
}
