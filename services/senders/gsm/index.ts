export type { ReceivedMessage } from './inbox.js';
export { numberProblem } from './number.js';
export type { PortSettings } from './port.js';
export { createSmsModem, type SmsModem, type SmsModemOptions } from './sms-modem.js';
export type { ModemEvent, ModemState, ModemStatus } from './status.js';
