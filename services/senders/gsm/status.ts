/** How a modem stands. */

/**
 * `starting`: the port is open and the modem being set up; `no-sim`: no card, or one that cannot be read;
 * `pin-needed`: the card is locked; `searching`: no network, or one that refuses the card; `registered`: messages
 * go; `lost`: the port is not there or the modem does not answer.
 */
export type ModemState = 'starting' | 'no-sim' | 'pin-needed' | 'searching' | 'registered' | 'lost';

export interface ModemStatus {
  readonly state: ModemState;
  /** Received signal strength, dBm, -113 to -51; absent where the modem does not know it. */
  readonly signal_dBm?: number;
  /** One sentence for a technician, where there is more to say. */
  readonly note?: string;
}

/** What happened, for logs. Numbers, texts and the PIN are left out. */
export type ModemEvent =
  | { readonly type: 'modem-trouble'; readonly error: string }
  | { readonly type: 'modem-reset' }
  /** A stored message that is no message, with what it holds: it is removed from the storage. */
  | { readonly type: 'modem-unreadable'; readonly pdu: string; readonly error: string }
  /** The receiver could not take a message: it stays in the storage and is given again. */
  | { readonly type: 'modem-message-kept'; readonly error: string };

export type ModemLog = (event: ModemEvent) => void;
