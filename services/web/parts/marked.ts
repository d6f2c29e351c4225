/** Fields of a form that are marked as not as expected, by the names that people read beside them. */

export interface MarkedField {
  readonly name: string;
  /** Brings it into sight, and the focus into it. */
  readonly lead: () => void;
}

/** In the order of the form. A group that is marked and a field in it are two. */
export const markedFields = (form: HTMLElement): MarkedField[] =>
  [...form.querySelectorAll<HTMLElement>('[aria-invalid="true"], [data-wrong]')].map((marked) => ({
    name: nameOf(marked),
    lead: () => leadTo(marked),
  }));

/** What stands in an element itself, without what hints and errors add to it; all of it where nothing does. */
function textOf(element: Element | null | undefined): string {
  const own = [...(element?.childNodes ?? [])]
    .filter((node) => node.nodeType === Node.TEXT_NODE)
    .map((node) => node.textContent ?? '')
    .join('')
    .trim();
  return own || (element?.textContent ?? '').trim();
}

function nameOf(marked: HTMLElement): string {
  if (marked.matches('fieldset')) return textOf(marked.querySelector(':scope > legend'));
  const [label] = (marked as HTMLInputElement).labels ?? [];
  const group = marked.parentElement?.closest('fieldset')?.querySelector(':scope > legend');
  const own = marked.getAttribute('aria-label') ?? textOf(label);
  return [textOf(group), own].filter(Boolean).join(': ');
}

/** What is folded away cannot take the focus. */
function leadTo(marked: HTMLElement): void {
  for (let fold = marked.closest('details'); fold; fold = fold.parentElement?.closest('details') ?? null)
    fold.open = true;
  const field = marked.matches('fieldset, [data-wrong]')
    ? (marked.querySelector<HTMLElement>('input, select, textarea, button') ?? marked)
    : marked;
  field.focus();
}
