import type { ComponentChildren } from 'preact';
import { asRead } from '../words/service-english.js';

interface NoticeParts {
  /** `refusal` is read aloud at once, `done` when there is a pause, the others where they stand. */
  readonly kind: 'caution' | 'refusal' | 'done' | 'draft' | 'plain';
  readonly title?: string | undefined;
  readonly children: ComponentChildren;
}

const ROLES = { refusal: 'alert', done: 'status', caution: 'note', draft: 'note', plain: undefined } as const;

export function Notice({ kind, title, children }: NoticeParts) {
  return (
    <div class="notice" data-kind={kind} role={ROLES[kind]}>
      {title ? (
        <p>
          <b>{title}</b>
        </p>
      ) : null}
      {children}
    </div>
  );
}

/** Words of the service, which are there in English only. */
export function English({ children }: { children: ComponentChildren }) {
  return <span lang="en">{typeof children === 'string' ? asRead(children) : children}</span>;
}
