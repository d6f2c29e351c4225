import type { ComponentChildren } from 'preact';

/** Opens to more. */
export function Fold({
  title,
  open,
  children,
}: {
  title: ComponentChildren;
  open?: boolean | undefined;
  children: ComponentChildren;
}) {
  return (
    <details class="fold" open={open}>
      <summary>{title}</summary>
      {children}
    </details>
  );
}
