import { goTo, linkTo, route } from '../route.ts';
import { mayAct } from '../session.ts';
import { People } from './People.tsx';
import { Piles } from './Piles.tsx';
import { Probes } from './Probes.tsx';
import { SetAside } from './SetAside.tsx';
import { WallLinks } from './WallLinks.tsx';

const parts = [
  { key: 'piles', title: 'Piles', role: 'keeper', view: Piles },
  { key: 'probes', title: 'Probes', role: 'keeper', view: Probes },
  { key: 'people', title: 'People', role: 'owner', view: People },
  { key: 'walls', title: 'Wall screens', role: 'owner', view: WallLinks },
  { key: 'set-aside', title: 'Set aside', role: 'keeper', view: SetAside },
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
      <nav class="parts" aria-label="What to manage">
        {allowed.map(({ key, title }) => (
          <a key={key} href={linkTo('manage', key)} aria-current={key === chosen.key ? 'page' : undefined}>
            {title}
          </a>
        ))}
      </nav>
      <h1>{chosen.title}</h1>
      <chosen.view />
    </main>
  );
}
