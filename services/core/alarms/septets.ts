/**
 * How long a text is in a short message: septets of the GSM 7-bit default alphabet, 3GPP TS 23.038 section 6.2.1.
 * One character outside the alphabet makes the whole message UCS-2 and cuts its limit from 160 to 70.
 */

/** Septets in a message that is not split: 140 octets of 8 bits. */
export const ONE_MESSAGE_septets = 160;

const BASIC = new Set(
  '@£$¥èéùìòÇ\nØø\rÅåΔ_ΦΓΛΩΠΨΣΘΞÆæßÉ !"#¤%&\'()*+,-./0123456789:;<=>?' +
    '¡ABCDEFGHIJKLMNOPQRSTUVWXYZÄÖÑÜ§¿abcdefghijklmnopqrstuvwxyzäöñüà',
);

/** Written as an escape and a second septet. */
const EXTENSION = new Set('\f^{}\\[~]|€');

/** Septets of the text; undefined where a character is not in the alphabet. */
export function septetsOf(text: string): number | undefined {
  let septets = 0;
  for (const character of text) {
    if (BASIC.has(character)) septets += 1;
    else if (EXTENSION.has(character)) septets += 2;
    else return undefined;
  }
  return septets;
}
