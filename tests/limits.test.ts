/** The limits that DEVELOPERS.md tells are those of the program. */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { PHOTO_LIMITS } from '../services/core/model/photo.js';
import { SITE_LIMITS } from '../services/core/model/site.js';
import { MINUTE_ms } from '../services/core/model/time.js';
import { TRIAL_LIMITS } from '../services/core/model/trial.js';
import { HTTP_LIMITS } from '../services/http/limits.js';
import { BROKER_LIMITS, COLLECTOR_LIMITS, MESSAGE_LIMITS } from '../services/intake/limits.js';

const KIB = 1024;
const [, section = ''] =
  /\n## Limits\n([\s\S]*?)(?=\n## )/.exec(
    readFileSync(new URL('../DEVELOPERS.md', import.meta.url), 'utf8'),
  ) ?? [];

test.each([
  ['one site: beds, probes, people', [SITE_LIMITS.beds, SITE_LIMITS.probes, SITE_LIMITS.people]],
  ['one message: records, payload', [MESSAGE_LIMITS.records, `${MESSAGE_LIMITS.payload_bytes / KIB} KiB`]],
  ["a reading's time ahead of its arrival", [`${MESSAGE_LIMITS.futureAllowance_ms / MINUTE_ms} min`]],
  ['messages that wait for a commit', [COLLECTOR_LIMITS.waiting_messages]],
  ['connections to the built-in broker', [BROKER_LIMITS.connections]],
  ['sockets of HTTP, streams among them', [HTTP_LIMITS.connections, HTTP_LIMITS.streams.open]],
  ['points in one answer, days in one question', [HTTP_LIMITS.pointsTogether, HTTP_LIMITS.span_days]],
  ['beds in a trial', [TRIAL_LIMITS.beds]],
  [
    'a picture; all of them',
    [`${PHOTO_LIMITS.one_bytes / KIB ** 2} MiB`, `${PHOTO_LIMITS.together_bytes / KIB ** 2} MiB`],
  ],
] as const)('DEVELOPERS.md tells the limit of %s', (of, most) => {
  expect(section).toContain(`\n| ${of} | ${most.join(', ')} |`);
});
