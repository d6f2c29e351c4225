/** The settings of a service as the log shows them at its start. */
import { shownAddress } from './archive/influx/address.js';
import { LANGUAGES } from './core/alarms/languages/index.js';
import type { Credentials, ServeSettings } from './settings.js';
import { describeTransport } from './transport.js';

/** One line for the start of the log. Secrets are named as set, never shown. */
export function describeSettings(settings: ServeSettings): string {
  const set = (credentials: Credentials | undefined): string => (credentials ? 'with password' : 'open');
  const { host, port } = settings.mqttListen;
  const broker = settings.broker ?? `built in on ${host}:${port}, ${set(settings.mqttCredentials)}`;
  const listen = `${settings.listen.host}:${settings.listen.port}, ${set(settings.httpCredentials)}`;
  const centre = settings.tellCentre ? ', and a centre is told' : '';
  const archive = settings.influx === undefined ? '' : `; long archive ${shownAddress(settings.influx)}`;
  const told = [
    ...(settings.modem ? [`short messages by modem ${settings.modem.path}`] : []),
    ...(settings.gateway ? ['short messages by gateway'] : []),
    ...(settings.mail ? ['e-mail'] : []),
  ];
  const people = told.length > 0 ? `; ${told.join(', ')}` : '';
  const drafts = LANGUAGES.filter(({ nativeReviewed }) => !nativeReviewed).map(({ language }) => language);
  const texts = `; drafts that no native speaker has read: ${drafts.join(', ')}`;
  return `data ${settings.data}, every reading for ${settings.keep_days} days; http ${listen}; broker ${broker}${centre}${archive}; webhooks ${settings.webhooks.length}${describeTransport(settings.transport)}${people}${texts}`;
}
