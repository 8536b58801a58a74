/**
 * One SenML record as sent (RFC 8428 sections 4.1 to 4.3). Labels keep the standard's own short names, because this is
 * the standard's own structure; everything past `resolve` uses whole words.
 */
export interface SenmlRecord {
  readonly bver?: number;
  readonly bn?: string;
  /** Seconds. */
  readonly bt?: number;
  readonly bu?: string;
  readonly bv?: number;
  readonly bs?: number;
  readonly n?: string;
  readonly u?: string;
  readonly v?: number;
  readonly vs?: string;
  readonly vb?: boolean;
  readonly vd?: Uint8Array;
  readonly s?: number;
  /** Seconds. */
  readonly t?: number;
  /** Seconds. */
  readonly ut?: number;
}

export type SenmlLabel = keyof SenmlRecord;
export type LabelKind = 'number' | 'string' | 'boolean' | 'bytes' | 'version' | 'duration';

export interface LabelDefinition {
  readonly label: SenmlLabel;
  /** Integer map key of the CBOR form (RFC 8428 section 6, table 4). */
  readonly cborKey: number;
  readonly kind: LabelKind;
}

/** Every label of RFC 8428, in the order an encoder writes them. */
export const labelDefinitions: readonly LabelDefinition[] = [
  { label: 'bver', cborKey: -1, kind: 'version' },
  { label: 'bn', cborKey: -2, kind: 'string' },
  { label: 'bt', cborKey: -3, kind: 'number' },
  { label: 'bu', cborKey: -4, kind: 'string' },
  { label: 'bv', cborKey: -5, kind: 'number' },
  { label: 'bs', cborKey: -6, kind: 'number' },
  { label: 'n', cborKey: 0, kind: 'string' },
  { label: 'u', cborKey: 1, kind: 'string' },
  { label: 'v', cborKey: 2, kind: 'number' },
  { label: 'vs', cborKey: 3, kind: 'string' },
  { label: 'vb', cborKey: 4, kind: 'boolean' },
  { label: 'vd', cborKey: 8, kind: 'bytes' },
  { label: 's', cborKey: 5, kind: 'number' },
  { label: 't', cborKey: 6, kind: 'number' },
  { label: 'ut', cborKey: 7, kind: 'duration' },
];

export const definitionByLabel: ReadonlyMap<string, LabelDefinition> = new Map(
  labelDefinitions.map((definition) => [definition.label, definition]),
);
export const labelByCborKey: ReadonlyMap<number, SenmlLabel> = new Map(
  labelDefinitions.map((definition) => [definition.cborKey, definition.label]),
);

/** The name and value of one field as it came off the wire, before its type is checked. */
export type RawField = readonly [label: string, value: unknown];
