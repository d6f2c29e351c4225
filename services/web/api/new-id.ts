/** A UUID of a record (RFC 9562 5.4). `crypto.randomUUID` is there only over https, and a station's page has none. */
export function newId(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  bytes[6] = ((bytes[6] ?? 0) & 0x0f) | 0x40;
  bytes[8] = ((bytes[8] ?? 0) & 0x3f) | 0x80;
  const hex = Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');
  return [0, 8, 12, 16, 20].map((from, at, all) => hex.slice(from, all[at + 1])).join('-');
}
