/** What a modem has received: SMS-DELIVER of 3GPP TS 23.040 section 9.2.2.1, or a status report. */
import { SandlarderError } from '../../core/errors.js';
import { decodeAddress } from './address.js';
import { fromHex, OctetReader } from './octets.js';
import { decodeStatusReport, type StatusReport } from './pdu-status-report.js';
import { decodeTimeStamp } from './time-stamp.js';
import { decodeUserData, type UserData } from './user-data.js';

export interface Deliver extends UserData {
  readonly type: 'deliver';
  /** International number with its plus sign, other number, or a name. */
  readonly from: string;
  /** When the service centre had it, ms; undefined where it did not say. */
  readonly sentAt: number | undefined;
}

/** TP-Message-Type-Indicator: section 9.2.3.1. */
const DELIVER = 0;
const STATUS_REPORT = 2;
/** TP-User-Data-Header-Indicator: section 9.2.3.23. */
const USER_DATA_HEADER = 0x40;

function decodeDeliver(first: number, reader: OctetReader): Deliver {
  const from = decodeAddress(reader);
  reader.octet(); // TP-Protocol-Identifier: says how the message came, not what it says.
  const scheme = reader.octet();
  const sentAt = decodeTimeStamp(reader);
  return {
    type: 'deliver',
    from,
    sentAt,
    ...decodeUserData(reader, scheme, (first & USER_DATA_HEADER) !== 0),
  };
}

/**
 * Reads what AT+CMGR, AT+CMGL, +CMT and +CDS show in PDU mode, with the service centre before it.
 *
 * @throws SandlarderError BAD_MESSAGE for one that is cut off, not hexadecimal or of another type
 */
export function decodeReceived(hex: string): Deliver | StatusReport {
  const reader = new OctetReader(fromHex(hex));
  reader.octets(reader.octet());
  const first = reader.octet();
  const type = first & 3;
  if (type === DELIVER) return decodeDeliver(first, reader);
  if (type === STATUS_REPORT) return decodeStatusReport(reader);
  throw new SandlarderError(
    'BAD_MESSAGE',
    `expected a received message or a status report, got type ${type}`,
  );
}
