import type { Feedstock } from '../mix/feedstockRow.ts';
import { feedstocks } from '../mix/feedstocks.ts';

/** What else people call rows of the table. Ours. */
const otherNames: Readonly<Record<string, string>> = {
  'broiler-litter': 'chicken poultry manure bedding',
  'laying-hen-manure': 'chicken poultry layer',
  'turkey-litter': 'poultry manure bedding',
  'cattle-manure': 'cow muck dung',
  'dairy-manure-tie-stall': 'cow muck',
  'dairy-manure-free-stall': 'cow muck slurry',
  'horse-manure-general-bedded': 'stable muck',
  'horse-manure-race-track': 'stable muck straw',
  'swine-manure': 'pig muck',
  'sheep-manure': 'goat muck',
  'food-waste-household-garbage': 'kitchen scraps vegetable peelings',
  'vegetable-produce': 'greengrocer market waste',
  'night-soil': 'human toilet',
  'leaves-loose-and-dry': 'autumn leaf fall',
  'leaves-compacted-and-moist': 'autumn leaf fall mould',
  'grass-clippings-loose': 'lawn mowings',
  'grass-clippings-compacted': 'lawn mowings',
  'wood-chips-shavings-hardwood': 'prunings arborist',
  'wood-chips-shavings-softwood': 'prunings arborist conifer',
  'shrub-trimmings': 'prunings hedge brush',
  'tree-trimmings-green': 'prunings branches',
  newsprint: 'newspaper',
  'paper-from-domestic-refuse': 'office mixed',
  seaweed: 'kelp wrack',
  'coffee-grounds-spent': 'cafe',
  'apple-pomace': 'cider press',
  'corn-stalks-loose-unshredded': 'maize',
  'corn-cobs': 'maize',
  'corn-silage': 'maize',
  'rice-hulls': 'husks',
};

/** Rows for what was typed: every word of it begins a word of the row's name or of what else it is called. */
export function searchFeedstocks(typed: string): readonly Feedstock[] {
  const wanted = typed
    .toLowerCase()
    .split(/[^a-z0-9]+/)
    .filter(Boolean)
    .map(singular);
  if (wanted.length === 0) return [];
  return feedstocks.filter(({ id, name }) => {
    const words = `${name} ${otherNames[id] ?? ''}`.toLowerCase().split(/[^a-z0-9]+/);
    return wanted.every((part) => words.some((word) => word.startsWith(part)));
  });
}

/** "leaves", "leaf" and "chips" should find the same rows. */
function singular(word: string): string {
  if (word === 'leaf' || word === 'leaves') return 'lea';
  return word.length > 3 && word.endsWith('s') ? word.slice(0, -1) : word;
}
