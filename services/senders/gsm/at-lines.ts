/** Cuts what a modem writes into lines. Noise is dropped, lengths are bounded, nothing here can throw. */

export type Received = { readonly type: 'line'; readonly text: string } | { readonly type: 'prompt' };

/** Longer than any line of a short message: 176 octets of a data unit are 352 digits. */
export const LINE_LENGTH = 1024;

/** What noise on the line leaves: only printable ASCII counts; a prompt that nobody waited for is no part of a line. */
const plain = (text: string): string =>
  text
    .replace(/[^\x20-\x7e]+/g, '')
    .replace(/^(?:\s*>)+/, '')
    .trim();

export class AtLines {
  #rest = '';
  #tooLong = false;

  /**
   * @param promptAwaited a line that so far is `>` alone is a prompt then
   */
  *take(chunk: Uint8Array, promptAwaited: () => boolean): Generator<Received> {
    for (const octet of chunk) {
      if (octet === 0x0d || octet === 0x0a) {
        const text = this.#tooLong ? '' : plain(this.#rest);
        this.#rest = '';
        this.#tooLong = false;
        if (text !== '') yield { type: 'line', text };
        continue;
      }
      if (this.#rest.length < LINE_LENGTH) this.#rest += String.fromCharCode(octet);
      else this.#tooLong = true;
      if (octet === 0x3e && promptAwaited() && /^[^\x21-\x7e]*>$/.test(this.#rest)) {
        this.#rest = '';
        yield { type: 'prompt' };
      }
    }
  }
}
