/** Sends a look with its pictures, or keeps them here until they can be sent. */
import { Refusal } from '../../api/client.js';
import { dropFollowers, putInOutbox, reasonOf, throwAway, type Waiting } from '../../api/outbox.js';
import { sendOrKeep, type Taken } from '../../api/send-or-keep.js';
import type { LookAnswer, LookBody } from '../../api/types/inspection.js';
import { say } from '../../words/say.js';
import { dayAndTime } from '../../words/times.js';
import type { Photo } from './photos.js';

export interface Sent {
  readonly taken: Taken<LookAnswer>;
  /** Pictures that wait here. */
  readonly waiting: number;
}

interface Look {
  readonly bed: { readonly id: string; readonly name: string };
  readonly body: LookBody;
  readonly photos: readonly Photo[];
}

/** @throws Refusal where the service does not take the record; NoNetwork where the browser keeps nothing */
export async function sendLook({ bed, body, photos }: Look): Promise<Sent> {
  const title = say('inspect.recordTitle', { bed: bed.name, when: dayAndTime(body.at) });
  const path = `/api/beds/${bed.id}/inspections`;
  const opens = `/jobs/inspect/${bed.id}?record=${body.id}`;
  const taken = await sendOrKeep<LookAnswer>({ id: body.id, path, method: 'POST', body, title, opens });
  // Pictures that waited with an earlier form of it are those of the form now; without a store there are none.
  await (taken.kept ? dropFollowers : throwAway)(body.id).catch(() => undefined);
  let waiting = 0;
  for (const [at, photo] of photos.entries()) {
    const kept = await sendPhoto(photoRecord(photo, at, { id: body.id, title, opens }), taken.kept);
    if (kept) waiting += 1;
  }
  return { taken, waiting };
}

function photoRecord(
  { name, blob }: Photo,
  at: number,
  of: { id: string; title: string; opens: string },
): Omit<Waiting, 'madeAt' | 'refusal'> {
  return {
    ...{ id: `${of.id}/${name}`, path: `/api/inspections/${of.id}/photos/${name}`, method: 'PUT', blob },
    ...{ after: of.id, title: say('inspect.photoTitle', { number: at + 1, record: of.title }) },
  };
}

/** @returns whether it waits here; one that the service refuses waits too, with the reason */
async function sendPhoto(
  record: Omit<Waiting, 'madeAt' | 'refusal'>,
  recordWaits: boolean,
): Promise<boolean> {
  if (recordWaits) {
    await putInOutbox(record);
    return true;
  }
  try {
    return (await sendOrKeep(record)).kept;
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    await putInOutbox({ ...record, refusal: reasonOf(error) });
    return true;
  }
}
