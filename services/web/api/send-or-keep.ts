/** Sends a record, and where the service cannot take it now keeps it on the device, to be sent later, once. */
import { ask, isForLater } from './client.js';
import { putInOutbox } from './outbox.js';
import type { Waiting } from './store.js';

export type Taken<Answer> = { readonly kept: false; readonly answer: Answer } | { readonly kept: true };

/**
 * A record that was sent and whose answer was lost waits too: it has its own UUID, so that the service takes it once.
 *
 * @param record its `id` is the UUID that its body has
 * @throws Refusal where the service does not take it; NoNetwork where it does not answer and the browser keeps nothing
 */
export async function sendOrKeep<Answer>(
  record: Omit<Waiting, 'madeAt' | 'refusal'>,
): Promise<Taken<Answer>> {
  try {
    return { kept: false, answer: await ask<Answer>(record.path, record) };
  } catch (error) {
    if (!isForLater(error)) throw error;
    try {
      await putInOutbox(record);
    } catch {
      throw error;
    }
    return { kept: true };
  }
}
