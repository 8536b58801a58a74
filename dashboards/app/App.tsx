import { useEffect, useState } from 'preact/hooks';
import { api } from '../common/api.ts';
import { clockTime } from '../common/format.ts';
import { followLive, link, serverNowMs } from '../common/live.ts';
import { isLost, NotLive } from '../common/NotLive.tsx';
import { forgetYard, trouble } from '../common/wallData.ts';
import { words } from '../common/words.ts';
import { Confirm } from './Confirm.tsx';
import { FirstSetUp } from './firstSteps/FirstSetUp.tsx';
import { Lazy } from './Lazy.tsx';
import { Manage } from './manage/Manage.tsx';
import { Me } from './me/Me.tsx';
import { PileScreen } from './pile/PileScreen.tsx';
import { Waiting } from './pile/press/Waiting.tsx';
import { linkTo, route } from './route.ts';
import { LinkSignIn, SetPassword, SignIn } from './SignIn.tsx';
import { failureText, fetchSession, mayAct, session } from './session.ts';
import { Unreachable } from './Unreachable.tsx';
import { appWords } from './words.ts';
import { YardList } from './YardList.tsx';

export function App() {
  const [failure, setFailure] = useState<string | null>(null);
  const start = () => {
    fetchSession().then(
      () => setFailure(null),
      (error) => setFailure(failureText(error)),
    );
  };
  useEffect(start, []);
  const ended = link.value === 'ended';
  useEffect(() => {
    if (ended) start();
  }, [ended]);
  const [place, token] = route.value;
  if (session.value === null) return failure === null ? null : <Unreachable why={failure} again={start} />;
  if (place === 'set-up' && token) return <FirstSetUp token={token} />;
  if (place === 'set-password' && token) return <SetPassword token={token} />;
  if (place === 'sign-in' && token) return <LinkSignIn token={token} />;
  if (session.value.person === null) return <SignIn />;
  return (
    <>
      <TopBar />
      <Place />
      <Confirm />
      {!(route.value[0] === 'piles' && route.value.length === 2) && <Waiting />}
    </>
  );
}

const planner = () => import('./planner/Planner.tsx').then(({ Planner }) => Planner);
const records = () => import('./records/Records.tsx').then(({ Records }) => Records);
const limitsScreen = () => import('./limits/LimitsScreen.tsx').then(({ LimitsScreen }) => LimitsScreen);

function Place() {
  const [place, id, part] = route.value;
  if (place === 'piles' && id && part === 'limits')
    return <Lazy key={id} load={limitsScreen} waiting={appWords.fetchingLimits} with={{ pileId: id }} />;
  if (place === 'piles' && id) return <PileScreen key={id} pileId={id} />;
  if (place === 'records') return <Lazy load={records} waiting={appWords.fetchingRecords} with={{}} />;
  if (place === 'manage') return <Manage />;
  if (place === 'me') return <Me />;
  if (place === 'start' && mayAct('owner'))
    return <Lazy load={firstSteps} waiting={words.fetching} with={{}} />;
  if (place === 'planner' && mayAct('keeper'))
    return <Lazy load={planner} waiting={appWords.fetchingPlanner} with={{}} />;
  return <YardList />;
}

/** Walked once: who only looks at piles downloads none of it. */
const firstSteps = async () => (await import('./firstSteps/FirstSteps.tsx')).FirstSteps;

function TopBar() {
  useEffect(() => followLive({ refresh: () => {} }), []);
  const signOut = async () => {
    await api.remove('/api/session').catch(() => {});
    forgetYard();
    location.hash = '';
    await fetchSession();
  };
  return (
    <header class="top">
      <a class="yard-name" href={linkTo()}>
        {session.value?.yard?.name}
      </a>
      <nav aria-label={appWords.places}>
        <a href={linkTo()}>{appWords.piles}</a>
        <a href="/wall">{appWords.wall}</a>
        <a href={linkTo('records')}>{appWords.records}</a>
        {mayAct('keeper') && <a href={linkTo('planner')}>{appWords.plan}</a>}
        {mayAct('keeper') && <a href={linkTo('manage')}>{appWords.manage}</a>}
      </nav>
      <a href={linkTo('me')}>{session.value?.person?.name}</a>
      {link.value === 'live' && <span class="clock">{clockTime(serverNowMs.value)}</span>}
      <button type="button" class="quiet" onClick={() => void signOut()}>
        {appWords.signOut}
      </button>
      {isLost() && <NotLive why={trouble.value} />}
    </header>
  );
}
