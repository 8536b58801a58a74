import type { ComponentChildren } from 'preact';

/** Names of the gaps of a sentence: `name` and `login` of "For {name} (sign-in name {login})". */
type Gaps<Text extends string> = Text extends `${string}{${infer Name}}${infer Rest}`
  ? Name | Gaps<Rest>
  : never;

interface SentenceProps<Text extends string> {
  /** Kept whole in a words file, so that a translator may put the gaps where their language wants them. */
  readonly of: Text;
  readonly with: Readonly<Record<Gaps<Text>, ComponentChildren>>;
}

/** A sentence with something drawn in it, as a link or a word in bold; plain values go through a function in a words file. */
export function Sentence<Text extends string>({ of, with: filled }: SentenceProps<Text>) {
  // Every second piece is the name of a gap.
  const pieces = of.split(/\{(\w+)\}/);
  return <>{pieces.map((piece, index) => (index % 2 === 0 ? piece : filled[piece as Gaps<Text>]))}</>;
}
