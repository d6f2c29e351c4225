import type { ComponentChildren } from 'preact';

/** A table that is wider than a phone: it scrolls by itself, by keys too. */
export function Wide({ label, children }: { label: string; children: ComponentChildren }) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by keys [WCAG 2.1.1]
    <section class="wide" aria-label={label} tabIndex={0}>
      {children}
    </section>
  );
}
