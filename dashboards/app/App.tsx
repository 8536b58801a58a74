import { useEffect, useState } from 'preact/hooks';
import { api } from '../common/api.ts';
import { clockTime } from '../common/format.ts';
import { link, serverNowMs } from '../common/live.ts';
import { words } from '../common/words.ts';
import { Manage } from './manage/Manage.tsx';
import { PileScreen } from './pile/PileScreen.tsx';
import { LazyPlanner } from './planner/LazyPlanner.tsx';
import { linkTo, route } from './route.ts';
import { FirstSetUp, LinkSignIn, SetPassword, SignIn } from './SignIn.tsx';
import { failureText, fetchSession, mayAct, session } from './session.ts';
import { YardList } from './YardList.tsx';

export function App() {
  const [failure, setFailure] = useState<string | null>(null);
  useEffect(() => {
    fetchSession().catch((error) => setFailure(failureText(error)));
  }, []);
  const [place, token] = route.value;
  if (failure !== null) return <main class="narrow">{failure}</main>;
  if (session.value === null) return null;
  if (place === 'set-up' && token) return <FirstSetUp token={token} />;
  if (place === 'set-password' && token) return <SetPassword token={token} />;
  if (place === 'sign-in' && token) return <LinkSignIn token={token} />;
  if (session.value.person === null) return <SignIn />;
  return (
    <>
      <TopBar />
      <Place />
    </>
  );
}

function Place() {
  const [place, id] = route.value;
  if (place === 'piles' && id) return <PileScreen key={id} pileId={id} />;
  if (place === 'manage') return <Manage />;
  if (place === 'planner' && mayAct('keeper')) return <LazyPlanner />;
  return <YardList />;
}

function TopBar() {
  const lost = link.value === 'lost' || link.value === 'ended';
  const signOut = async () => {
    await api.remove('/api/session').catch(() => {});
    location.hash = '';
    await fetchSession();
  };
  return (
    <header class="top">
      <a class="yard-name" href={linkTo()}>
        {session.value?.yard?.name}
      </a>
      <nav aria-label="Places">
        <a href={linkTo()}>Piles</a>
        <a href="/wall">Wall</a>
        {mayAct('keeper') && <a href={linkTo('planner')}>Plan</a>}
        {mayAct('keeper') && <a href={linkTo('manage')}>Manage</a>}
      </nav>
      {link.value === 'live' && <span class="clock">{clockTime(serverNowMs.value)}</span>}
      <button type="button" class="quiet" onClick={() => void signOut()}>
        Sign out
      </button>
      {lost && (
        <p class="lost" role="alert">
          <strong>{words.notLive}</strong> {words.notLiveHint}
        </p>
      )}
    </header>
  );
}
