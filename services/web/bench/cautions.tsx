import { Notice } from '../parts/notice.js';
import { say } from '../words/say.js';

/** What to mind with what stands on the bench; the label, the safety sheet and local rules go before it. */
export function Cautions({ texts }: { texts: readonly string[] }) {
  if (texts.length === 0) return null;
  return (
    <Notice kind="caution" title={say('bench.cautions')}>
      <ul lang="en">
        {texts.map((text) => (
          <li key={text}>{text}</li>
        ))}
      </ul>
      <p>{say('bench.cautionsRank')}</p>
    </Notice>
  );
}
