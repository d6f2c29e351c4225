/** InfluxDB as the long archive. Apart from the door of `archive`: most commands need none of it. */
export { type InfluxAddress, shownAddress } from './address.js';
export { InfluxConnection } from './connection.js';
export { Forwarder, type ForwarderState } from './forwarder.js';
export { InfluxReader } from './reader.js';
export type { Refused } from './sending.js';
