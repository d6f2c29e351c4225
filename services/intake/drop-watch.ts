const COUNT = /^\d{1,15}$/;

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
    if (!COUNT.test(text)) return;
    const count = Number(text);
    // A lower count than before: the broker began anew.
    const more = count < this.#seen ? count : count - this.#seen;
    if (more > 0)
      this.#warn(
        `the broker has dropped ${more} messages for a client whose queue was full; where that is this service ` +
          'they are lost: raise the limit (in Mosquitto: max_queued_messages 0)',
      );
    this.#seen = count;
  }
}
