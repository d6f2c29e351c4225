import type { ComponentChildren } from 'preact';
import { useMayOpen } from '../access/may.js';

/** A link; its words alone for whoever may do nothing where it leads. */
export function WayTo({
  href,
  children,
  ...about
}: {
  href: string;
  children: ComponentChildren;
  class?: string;
}) {
  return useMayOpen()(href) ? (
    <a href={href} {...about}>
      {children}
    </a>
  ) : (
    <span>{children}</span>
  );
}
