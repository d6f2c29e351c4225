/** Watches Mosquitto's own count of messages that it dropped because a queue was full. */
export class DropWatch {
  /** Published every ten seconds or so where the broker is Mosquitto; others never send it. */
  static readonly TOPIC = '$SYS/broker/publish/messages/dropped';

  readonly #warn: (warning: string) => void;
  #seen = 0;

  constructor(warn: (warning: string) => void) {
    this.#warn = warn;
  }

  /** @param text the count since the broker's start */
  look(text: string): void {
    const count = Number(text);
    if (!(count >= 0)) return;
    if (count > this.#seen)
      this.#warn(
        `the broker has dropped ${count - this.#seen} messages for a client whose queue was full; where that is ` +
          'this service they are lost: raise the limit (in Mosquitto: max_queued_messages 0)',
      );
    this.#seen = count;
  }
}
