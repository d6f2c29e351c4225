/** Addresses of e-mail, as far as every server takes them: RFC 5321 section 4.1.2 without quotes and literals. */

/** Characters of an address at the most, RFC 5321 section 4.5.3.1.3 less the angle brackets. */
const LENGTH = 254;

/** Atoms with single full stops between, then labels of letters, digits and inner hyphens, RFC 1123 section 2.1. */
const ADDRESS =
  /^(?=.{1,64}@)[\w!#$%&'*+/=?^`{|}~-]+(?:\.[\w!#$%&'*+/=?^`{|}~-]+)*@(?:[a-z0-9](?:[a-z0-9-]{0,61}[a-z0-9])?\.)*[a-z0-9](?:[a-z0-9-]{0,61}[a-z0-9])?$/i;

/** What keeps a text from being an address; undefined where nothing does. It is not repeated: it is a person's. */
export function addressProblem(text: string): string | undefined {
  if (!(text.length <= LENGTH))
    return `expected an address of at most ${LENGTH} characters, got ${text.length}`;
  if (ADDRESS.test(text)) return undefined;
  // biome-ignore lint/suspicious/noControlCharactersInRegex: asks for what is not ASCII.
  if (/[^\x00-\x7f]/.test(text))
    return 'expected an address such as keeper@store.example in ASCII, got other letters';
  return 'expected an address such as keeper@store.example, got another text';
}

export interface Mailbox {
  /** Empty where there is none. */
  readonly name: string;
  readonly address: string;
}

/** Reads `address` or `Name <address>`; undefined where it is neither. */
export function readMailbox(text: string): Mailbox | undefined {
  const [, name = '', inside, plain] =
    /^(?:([^<>\p{C}]{0,100})<([^<>]+)>|([^<>]+))$/u.exec(text.trim()) ?? [];
  const address = inside ?? plain ?? '';
  return addressProblem(address) === undefined ? { name: name.trim(), address } : undefined;
}
