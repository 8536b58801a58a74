import { goTo, linkTo, route } from '../route.ts';
import { mayAct } from '../session.ts';
import './manage.css';
import '../probes/probes.css';
import { Duty } from './duty/Duty.tsx';
import { Gateways } from './Gateways.tsx';
import { Health } from './Health.tsx';
import { LazyTexts } from './LazyTexts.tsx';
import { People } from './People.tsx';
import { Piles } from './Piles.tsx';
import { Probes } from './Probes.tsx';
import { Report } from './report/Report.tsx';
import { SetAside } from './SetAside.tsx';
import { ServiceState } from './service/ServiceState.tsx';
import { WallLinks } from './WallLinks.tsx';
import { partTitles, text } from './words.ts';
import { Yard } from './Yard.tsx';
import { YardMap } from './YardMap.tsx';

const parts = [
  { key: 'piles', role: 'keeper', view: Piles },
  { key: 'probes', role: 'keeper', view: Probes },
  { key: 'health', role: 'keeper', view: Health },
  { key: 'set-aside', role: 'keeper', view: SetAside },
  { key: 'people', role: 'owner', view: People },
  { key: 'duty', role: 'keeper', view: Duty },
  { key: 'texts', role: 'keeper', view: LazyTexts },
  { key: 'report', role: 'keeper', view: Report },
  { key: 'gateways', role: 'keeper', view: Gateways },
  { key: 'walls', role: 'owner', view: WallLinks },
  { key: 'service', role: 'keeper', view: ServiceState },
  { key: 'map', role: 'keeper', view: YardMap },
  { key: 'yard', role: 'owner', view: Yard },
] as const;

/** Everything that is set up rather than watched. */
export function Manage() {
  const allowed = parts.filter(({ role }) => mayAct(role));
  const chosen = allowed.find(({ key }) => key === route.value[1]) ?? allowed[0];
  if (!chosen) {
    goTo();
    return null;
  }
  return (
    <main class="page">
      <nav class="parts" aria-label={text.whatToManage}>
        {allowed.map(({ key }) => (
          <a key={key} href={linkTo('manage', key)} aria-current={key === chosen.key ? 'page' : undefined}>
            {partTitles[key]}
          </a>
        ))}
        {mayAct('owner') && <a href={linkTo('start')}>{text.firstSteps}</a>}
      </nav>
      <h1>{partTitles[chosen.key]}</h1>
      <chosen.view />
    </main>
  );
}
