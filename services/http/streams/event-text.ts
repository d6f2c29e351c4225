/** The text of an event stream [WHATWG HTML 9.2.5]: UTF-8, lines ended by LF, an empty line after each event. */

export interface StreamEvent {
  readonly id: string;
  readonly event: string;
  readonly data: object;
}

/** JSON text has no line feed of its own, so that one `data` line holds it. */
export const eventText = ({ id, event, data }: StreamEvent): string =>
  `id: ${id}\nevent: ${event}\ndata: ${JSON.stringify(data)}\n\n`;

/** Keeps the way open where proxies close what is silent; readers skip it [WHATWG HTML 9.2.7]. */
export const HEARTBEAT = ':\n\n';

/** After how long a reader asks again when the stream ends, ms. */
export const retryText = (retry_ms: number): string => `retry: ${retry_ms}\n\n`;
