/** The id and the time under which something is sent: the same while the same is sent again, as the answer may have been lost. */
import { useRef } from 'preact/hooks';
import { newId } from '../api/new-id.js';

export interface Stamp {
  readonly id: string;
  /** ISO 8601. */
  readonly at: string;
}

/** @returns gives the stamp of a content: another for another one */
export function useStamp(): (content: unknown) => Stamp {
  const last = useRef<(Stamp & { readonly of: string }) | undefined>(undefined);
  return (content) => {
    const of = JSON.stringify(content);
    if (last.current?.of !== of) last.current = { of, id: newId(), at: new Date().toISOString() };
    const { id, at } = last.current;
    return { id, at };
  };
}
