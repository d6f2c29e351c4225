import { useEffect, useRef } from 'preact/hooks';
import { say } from '../words/say.js';

let opened = false;

/** The heading of a page: it names the window, and takes the focus when one comes here from another page. */
export function Title({ children }: { children: string }) {
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    document.title = `${children} · ${say('app.name')}`;
  }, [children]);
  useEffect(() => {
    if (opened) heading.current?.focus();
    opened = true;
  }, []);
  return (
    <h1 ref={heading} tabIndex={-1}>
      {children}
    </h1>
  );
}
