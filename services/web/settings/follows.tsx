/** What became of a change, and what follows from it. */
import type { Changed } from '../api/types/site.js';
import { Notice } from '../parts/notice.js';
import { say } from '../words/say.js';
import { asRead } from '../words/service-english.js';

export function Follows({ saved }: { saved: Changed<unknown> | undefined }) {
  if (!saved) return null;
  return (
    <Notice kind="done" title={say(saved.changed ? 'settings.saved' : 'settings.nothingNew')}>
      {saved.follows.map((sentence) => (
        <p key={sentence} lang="en">
          {asRead(sentence)}
        </p>
      ))}
    </Notice>
  );
}
