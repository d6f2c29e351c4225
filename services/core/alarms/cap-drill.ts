/** A drill as a message of the OASIS Common Alerting Protocol 1.2: an exercise, about nothing that is so. */
import { CAP_NAMESPACE } from './cap.js';
import { CATEGORY } from './cap-codes.js';
import { type CapScope, capTime, requireName, requireWords, scopeElements } from './cap-fields.js';
import { xmlDocument } from './xml.js';

export interface CapDrill {
  readonly identifier: string;
  readonly sender: string;
  readonly siteName: string;
  readonly bedName: string;
  readonly scope: CapScope;
  /** Wall clock, ms. */
  readonly sentAt: number;
  /** That it is a test; English. */
  readonly text: string;
}

/**
 * The status is `Exercise`, for which section 3.2.1 asks that `note` says what it is for. Urgency, severity and
 * certainty are of nothing.
 *
 * @returns XML 1.0 text, UTF-8
 * @throws SandlarderError OUT_OF_DOMAIN for a name or time that the specification does not allow
 */
export function capDrillOf({ sentAt, text, siteName, bedName, ...drill }: CapDrill): string {
  const words = requireWords('text', text);
  return xmlDocument(
    [
      'alert',
      [
        ['identifier', requireName('identifier', drill.identifier)],
        ['sender', requireName('sender', drill.sender)],
        ['sent', capTime('sentAt', sentAt)],
        ['status', 'Exercise'],
        ['msgType', 'Alert'],
        ...scopeElements(drill.scope),
        ['note', words],
        [
          'info',
          [
            ['language', 'en'],
            ['category', CATEGORY],
            ['event', 'Drill'],
            ['responseType', 'None'],
            ['urgency', 'Unknown'],
            ['severity', 'Unknown'],
            ['certainty', 'Unknown'],
            ['senderName', requireWords('siteName', siteName)],
            ['headline', words],
            ['area', [['areaDesc', requireWords('bedName', `${siteName}: ${bedName}`)]]],
          ],
        ],
      ],
    ],
    CAP_NAMESPACE,
  );
}
