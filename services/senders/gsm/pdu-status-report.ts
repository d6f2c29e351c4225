/** SMS-STATUS-REPORT: what became of a message that was sent. 3GPP TS 23.040 section 9.2.2.3. */
import { decodeAddress } from './address.js';
import type { OctetReader } from './octets.js';
import { decodeTimeStamp } from './time-stamp.js';

/** `forwarded`: handed on, and nobody can say whether it came. */
export type Outcome = 'delivered' | 'forwarded' | 'still-trying' | 'failed';

export interface StatusReport {
  readonly type: 'status-report';
  /** TP-Message-Reference, as +CMGS gave it. */
  readonly reference: number;
  readonly recipient: string;
  /** When the service centre had the message, ms. */
  readonly sentAt: number | undefined;
  /** When it was delivered or last tried, ms. */
  readonly dischargedAt: number | undefined;
  readonly outcome: Outcome;
  /** TP-Status as it came. */
  readonly status: number;
}

/** TP-Status: section 9.2.3.15. A reserved value counts as a failure of the service, as is said there. */
export function outcomeOf(status: number): Outcome {
  if (status === 0x00) return 'delivered';
  if (status === 0x01) return 'forwarded';
  if (status >= 0x20 && status <= 0x3f) return 'still-trying';
  return 'failed';
}

/** Reads what follows the first octet; what the centre adds after the status is left. */
export function decodeStatusReport(reader: OctetReader): StatusReport {
  const reference = reader.octet();
  const recipient = decodeAddress(reader);
  const sentAt = decodeTimeStamp(reader);
  const dischargedAt = decodeTimeStamp(reader);
  const status = reader.octet();
  return {
    type: 'status-report',
    reference,
    recipient,
    sentAt,
    dischargedAt,
    outcome: outcomeOf(status),
    status,
  };
}
