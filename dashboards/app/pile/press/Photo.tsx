import { useEffect, useRef, useState } from 'preact/hooks';
import { failureText } from '../../session.ts';
import { text } from '../words.ts';
import { scalePhoto } from './scalePhoto.ts';
import { pressWords } from './words.ts';

interface PhotoProps {
  readonly onTaken: (photo: Blob, note: string) => void;
}

/** Takes or chooses a photo, shows what will be sent, and adds a word to it. */
export function Photo({ onTaken }: PhotoProps) {
  const [photo, setPhoto] = useState<Blob | null>(null);
  const [failure, setFailure] = useState<string | null>(null);
  const [note, setNote] = useState('');
  const choose = async (file: File | undefined) => {
    if (file === undefined) return;
    setFailure(null);
    setPhoto(null);
    await scalePhoto(file).then(setPhoto, (error) => setFailure(failureText(error)));
  };
  return (
    <div class="photo-sheet">
      <div class="field">
        <label for="photo-file">{pressWords.photoFile}</label>
        <input
          id="photo-file"
          type="file"
          accept="image/*"
          onChange={(event) => void choose((event.currentTarget as HTMLInputElement).files?.[0])}
        />
        <p class="hint">{text.photoHint}</p>
      </div>
      {failure && (
        <p class="wrong" role="alert">
          {failure}
        </p>
      )}
      {photo && <Preview photo={photo} />}
      <div class="field">
        <label for="photo-note">{pressWords.photoShows}</label>
        <input
          id="photo-note"
          value={note}
          maxLength={2000}
          onInput={(event) => setNote((event.currentTarget as HTMLInputElement).value)}
        />
      </div>
      <button
        type="button"
        class="wide"
        disabled={photo === null}
        onClick={() => onTaken(photo!, note.trim())}
      >
        {photo === null ? pressWords.photoFirst : pressWords.photoKeep(Math.ceil(photo.size / 1000))}
      </button>
    </div>
  );
}

function Preview({ photo }: { readonly photo: Blob }) {
  const image = useRef<HTMLImageElement>(null);
  useEffect(() => {
    const address = URL.createObjectURL(photo);
    image.current!.src = address;
    return () => URL.revokeObjectURL(address);
  }, [photo]);
  return <img ref={image} class="photo" alt={pressWords.photoPreview} />;
}
