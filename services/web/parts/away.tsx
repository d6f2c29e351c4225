/** That the service does not answer: stays in sight while the page is scrolled, and covers nothing that has the focus. */
import { useEffect, useRef } from 'preact/hooks';
import { useNetwork } from '../api/network.js';
import { say } from '../words/say.js';
import { dayAndTime } from '../words/times.js';
import { Notice } from './notice.js';

export function Away() {
  const { answers, lastAnswerAt } = useNetwork();
  const place = useRef<HTMLDivElement>(null);
  useEffect(() => keepFocusBelow(place.current), []);
  return (
    <div class="away" role="status" ref={place}>
      {answers ? null : (
        <Notice kind="plain">
          {lastAnswerAt === undefined
            ? say('app.noNetworkEver')
            : say('app.noNetwork', { since: dayAndTime(lastAnswerAt) })}
        </Notice>
      )}
    </div>
  );
}

/** What takes the focus is scrolled to below it [WCAG 2.4.11]. */
function keepFocusBelow(away: HTMLElement | null): (() => void) | undefined {
  if (away === null || typeof ResizeObserver === 'undefined') return undefined;
  const { style } = document.documentElement;
  const sizes = new ResizeObserver(() => {
    const sticks = getComputedStyle(away).position === 'sticky';
    style.scrollPaddingTop = sticks && away.offsetHeight > 0 ? `${away.offsetHeight}px` : '';
  });
  sizes.observe(away);
  return () => {
    sizes.disconnect();
    style.scrollPaddingTop = '';
  };
}
