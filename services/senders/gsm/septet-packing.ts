/** Septets in octets, the lowest bits first: 3GPP TS 23.038 section 6.1.2.1. */

/**
 * @param fillBits 0 to 6 zero bits before the first septet: after a user data header the text begins at a septet
 * boundary, TS 23.040 section 9.2.3.24
 */
export function pack(septets: readonly number[], fillBits = 0): number[] {
  const octets: number[] = [];
  let bits = 0;
  let held = fillBits;
  for (const septet of septets) {
    bits |= (septet & 0x7f) << held;
    held += 7;
    while (held >= 8) {
      octets.push(bits & 0xff);
      bits >>= 8;
      held -= 8;
    }
  }
  if (held > 0) octets.push(bits & 0xff);
  return octets;
}

/**
 * @param count septets to read; those past the end of the octets are left out
 * @param fillBits as for `pack`
 */
export function unpack(octets: Uint8Array, count: number, fillBits = 0): number[] {
  const septets: number[] = [];
  for (let index = 0; index < count; index += 1) {
    const bit = fillBits + index * 7;
    if (bit + 7 > octets.length * 8) break;
    const low = octets[bit >> 3] ?? 0;
    const high = octets[(bit >> 3) + 1] ?? 0;
    septets.push((((high << 8) | low) >> (bit & 7)) & 0x7f);
  }
  return septets;
}
