/** Pictures of a look: taken or chosen, made smaller, shown, left out again. */
import { useEffect, useState } from 'preact/hooks';
import { Button } from '../../parts/button.js';
import { Field } from '../../parts/field.js';
import { say } from '../../words/say.js';
import { shrunk } from './shrink.js';

/** Of the service. */
const MOST = 20;

export interface Photo {
  readonly name: string;
  readonly blob: Blob;
}

interface PhotosParts {
  readonly photos: readonly Photo[];
  readonly onChange: (change: (before: readonly Photo[]) => readonly Photo[]) => void;
  readonly wrong?: string | undefined;
}

export function Photos({ photos, onChange, wrong }: PhotosParts) {
  const [busy, setBusy] = useState(false);
  const [failed, setFailed] = useState<string>();
  const take = async (input: HTMLInputElement): Promise<void> => {
    const files = [...(input.files ?? [])];
    setBusy(true);
    setFailed(undefined);
    for (const file of files)
      await shrunk(file).then(
        (blob) => onChange((before) => added(before, blob)),
        () => setFailed(say('inspect.photoWrong', { name: file.name })),
      );
    if (photos.length + files.length > MOST) setFailed(say('inspect.photosMany'));
    input.value = '';
    setBusy(false);
  };
  return (
    <>
      <Field label={say('inspect.photoAdd')} hint={say('inspect.photosHint')} wrong={failed ?? wrong}>
        {(ids) => (
          <input
            {...ids}
            type="file"
            accept="image/jpeg,image/png,image/webp"
            capture="environment"
            multiple
            onChange={({ currentTarget }) => void take(currentTarget)}
          />
        )}
      </Field>
      <p role="status">{busy ? say('inspect.photoBusy') : ''}</p>
      <ul class="look-photos">
        {photos.map((photo, at) => (
          <li key={photo.name}>
            <Shown photo={photo} number={at + 1} />
            <Button
              kind="quiet"
              onPress={() => onChange((before) => before.filter((one) => one.name !== photo.name))}
            >
              {say('inspect.photoDrop', { number: at + 1 })}
            </Button>
          </li>
        ))}
      </ul>
    </>
  );
}

/** Under the first number that is free: what was left out is not named again within a record. */
function added(before: readonly Photo[], blob: Blob): readonly Photo[] {
  if (before.length >= MOST) return before;
  const highest = Math.max(0, ...before.map(({ name }) => Number.parseInt(name, 10)));
  return [...before, { name: `${highest + 1}.jpg`, blob }];
}

function Shown({ photo, number }: { photo: Photo; number: number }) {
  const [url, setUrl] = useState<string>();
  useEffect(() => {
    const made = URL.createObjectURL(photo.blob);
    setUrl(made);
    return () => URL.revokeObjectURL(made);
  }, [photo.blob]);
  return <img src={url} alt={say('inspect.photoOf', { number })} />;
}
