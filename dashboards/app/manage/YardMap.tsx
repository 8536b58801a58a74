import { useEffect, useState } from 'preact/hooks';
import { longestMapSide } from '../../../shared/api/constants.ts';
import { mapCells } from '../../../shared/api/mapCells.ts';
import type { MapPlace, PileView, YardMap as YardMapView } from '../../../shared/api/types.ts';
import { api } from '../../common/api.ts';
import { NumberField } from '../planner/NumberField.tsx';
import { failureText } from '../session.ts';
import { mapWords } from './mapWords.ts';
import './yardMap.css';

/** Where each place of the yard is, so that a wall ordered by the map looks like the yard itself. */
export function YardMap() {
  const [piles, setPiles] = useState<readonly PileView[] | null>(null);
  const [places, setPlaces] = useState<readonly MapPlace[]>([]);
  const [said, setSaid] = useState<string | null>(null);
  useEffect(() => {
    Promise.all([api.get<readonly PileView[]>('/api/piles'), api.get<YardMapView>('/api/yard/map')]).then(
      ([all, map]) => {
        const open = all.filter(({ endedMs }) => endedMs === null);
        setPiles(open);
        setPlaces(withEveryPlace(map.places, open));
      },
      (error) => setSaid(failureText(error)),
    );
  }, []);
  if (piles === null) return <p class="hint">{said ?? mapWords.fetching}</p>;
  if (piles.length === 0) return <p class="hint">{mapWords.noPiles}</p>;
  const move = (place: string, change: Partial<MapPlace>) => {
    setSaid(null);
    setPlaces(places.map((one) => (one.place === place ? { ...one, ...change } : one)));
  };
  const save = () =>
    api.put('/api/yard/map', { places }).then(
      () => setSaid(mapWords.saved),
      (error) => setSaid(failureText(error)),
    );
  return (
    <>
      <p class="hint">{mapWords.hint}</p>
      <Preview piles={piles} places={places} />
      <ul class="map-places">
        {places.map((one) => (
          <li key={one.place}>
            <strong>{one.place}</strong>
            <NumberField
              label={mapWords.column(one.place)}
              value={one.column}
              onChange={(column) => column !== null && move(one.place, { column: Math.round(column) })}
              min={1}
              max={longestMapSide}
            />
            <NumberField
              label={mapWords.row(one.place)}
              value={one.row}
              onChange={(row) => row !== null && move(one.place, { row: Math.round(row) })}
              min={1}
              max={longestMapSide}
            />
          </li>
        ))}
      </ul>
      <p class="buttons">
        <button type="button" onClick={() => void save()}>
          {mapWords.save}
        </button>
      </p>
      {said && <p role="status">{said}</p>}
    </>
  );
}

/** Places that are not on the map yet are offered in a column of their own. */
function withEveryPlace(known: readonly MapPlace[], piles: readonly PileView[]): MapPlace[] {
  const names = [...new Set(piles.map(({ place }) => place))].sort();
  const lowest = Math.max(0, ...known.map(({ row }) => row));
  const fresh = names.filter((name) => !known.some(({ place }) => place === name));
  return [
    ...known.filter(({ place }) => names.includes(place)),
    ...fresh.map((place, index) => ({ place, column: 1, row: Math.min(longestMapSide, lowest + 1 + index) })),
  ];
}

function Preview({
  piles,
  places,
}: {
  readonly piles: readonly PileView[];
  readonly places: readonly MapPlace[];
}) {
  const { columns, rows, cells } = mapCells(piles, places);
  return (
    <ul
      class="map-preview"
      aria-label={mapWords.preview}
      style={{
        gridTemplateColumns: `repeat(${columns}, minmax(0, 1fr))`,
        gridTemplateRows: `repeat(${rows}, auto)`,
      }}
    >
      {piles.map(({ id, name }) => (
        <li key={id} style={{ gridColumn: cells.get(id)!.column, gridRow: cells.get(id)!.row }}>
          {name}
        </li>
      ))}
    </ul>
  );
}
