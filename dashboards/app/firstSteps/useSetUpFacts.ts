import type {
  CalibrationView,
  DutyView,
  MessageView,
  PersonView,
  PileView,
  PlacementView,
  ProbeView,
  WallLinkView,
} from '../../../shared/api/types.ts';
import { type Fetched, useFetched } from '../useFetched.ts';
import type { SetUpFacts } from './steps.ts';

/** Everything the walk goes by, kept up to date; `facts` is null until all of it has come. */
export function useSetUpFacts(): {
  readonly facts: SetUpFacts | null;
  readonly failure: string | null;
  readonly refetch: () => Promise<void>;
} {
  const parts = {
    people: useFetched<PersonView[]>('/api/people', ({ kind }) => kind === 'people'),
    duty: useFetched<DutyView>('/api/duty', ({ kind }) => kind === 'people'),
    piles: useFetched<PileView[]>('/api/piles', ({ kind }) => kind === 'pile'),
    probes: useFetched<ProbeView[]>('/api/probes', ({ kind }) => kind === 'probe' || kind === 'pile'),
    placements: useFetched<PlacementView[]>('/api/placements', ({ kind }) => kind === 'pile'),
    calibrations: useFetched<CalibrationView[]>('/api/calibrations', ({ kind }) => kind === 'probe'),
    messages: useFetched<MessageView[]>('/api/messages?limit=20', ({ kind }) => kind === 'messages'),
    wallLinks: useFetched<WallLinkView[]>('/api/wall-links', () => false),
  };
  const all: readonly Fetched<unknown>[] = Object.values(parts);
  const { people, duty, piles, probes, placements, calibrations, messages, wallLinks } = parts;
  const isComplete = all.every(({ data }) => data !== null);
  return {
    failure: all.find(({ failure }) => failure !== null)?.failure ?? null,
    refetch: async () => {
      await Promise.all(all.map(({ refetch }) => refetch()));
    },
    facts: isComplete
      ? {
          people: people.data!,
          reachableIds: duty.data!.people.filter(({ reachable }) => reachable).map(({ id }) => id),
          piles: piles.data!,
          probes: probes.data!,
          placements: placements.data!,
          calibrations: calibrations.data!,
          messages: messages.data!,
          wallLinks: wallLinks.data!,
        }
      : null,
  };
}
