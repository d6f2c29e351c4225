/** The form of a look. What is typed is kept with every change, until it is sent or waits to be. */
import { useState } from 'preact/hooks';
import { newId } from '../../api/new-id.js';
import type { Bed } from '../../api/types/bed.js';
import { Form, NotAsExpected } from '../../parts/form.js';
import { rememberPerson } from '../../parts/person.js';
import { say } from '../../words/say.js';
import { Found } from './found-fields.js';
import { Hands, Note, Out, Part, Roots, Who } from './look-fields.js';
import { keepLook } from './look-kept.js';
import { bodyOf, type TypedLook } from './look-typed.js';
import { wrongsOf } from './look-wrongs.js';
import { type Photo, Photos } from './photos.js';
import { type Sent, sendLook } from './send-look.js';

interface LookFormParts {
  readonly bed: Pick<Bed, 'id' | 'name'>;
  /** People of the site. */
  readonly names: readonly string[];
  readonly first: TypedLook;
  readonly firstPhotos: readonly Photo[];
  /** The record that is mended; a new one where absent. */
  readonly record?: string | undefined;
  readonly onSent: (sent: Sent) => void;
}

export function LookForm({ bed, names, first, firstPhotos, record, onSent }: LookFormParts) {
  const [id] = useState(() => record ?? newId());
  const [look, setLook] = useState(first);
  const [photos, setPhotos] = useState(firstPhotos);
  const change = (part: Partial<TypedLook>): void =>
    setLook((before) => {
      const next = { ...before, ...part };
      if (record === undefined) keepLook(bed.id, next);
      return next;
    });
  const send = async (): Promise<void> => {
    const wrongs = wrongsOf(look);
    if (Object.keys(wrongs).length > 0) throw new NotAsExpected(wrongs);
    rememberPerson(look.by);
    const names = photos.map(({ name }) => name);
    const sent = await sendLook({ bed, body: bodyOf(look, id, names), photos });
    keepLook(bed.id, undefined);
    onSent(sent);
  };
  return (
    <Form label={say('inspect.title', { bed: bed.name })} send={say('inspect.send')} onSend={send}>
      {(wrongs) => {
        const parts = { look, onChange: change, wrongs };
        return (
          <>
            <Who {...parts} names={names} />
            <Hands {...parts} />
            <Roots {...parts} />
            <Out {...parts} />
            <Found {...parts} />
            <Part title={say('inspect.photos')}>
              <Photos photos={photos} onChange={setPhotos} wrong={wrongs['photos']} />
            </Part>
            <Note {...parts} />
          </>
        );
      }}
    </Form>
  );
}
