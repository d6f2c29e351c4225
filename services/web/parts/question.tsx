/** Asked before something is done that is seldom meant: what follows, yes and no. */
import { useEffect, useRef } from 'preact/hooks';
import { Button } from './button.js';

interface QuestionParts {
  readonly text: string;
  readonly yes: string;
  readonly no: string;
  /** Undefined where yes sends the form around it. */
  readonly onYes?: () => unknown;
  readonly onNo: () => void;
  readonly busy?: boolean;
}

export function Question({ text, yes, no, onYes, onNo, busy = false }: QuestionParts) {
  const place = useRef<HTMLDivElement>(null);
  // The button that was pressed is gone: the focus goes to the answer that changes nothing.
  useEffect(() => {
    place.current?.querySelector<HTMLElement>('[data-kind="quiet"]')?.focus();
  }, []);
  return (
    <div class="notice" data-kind="caution" role="alert" ref={place}>
      <p>{text}</p>
      <div class="buttons">
        <Button busy={busy} {...(onYes ? { onPress: onYes } : { type: 'submit' })}>
          {yes}
        </Button>
        <Button kind="quiet" onPress={onNo}>
          {no}
        </Button>
      </div>
    </div>
  );
}
