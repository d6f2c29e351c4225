import { say } from '../words/say.js';

/** The way back to what a page of the settings was opened from. */
export function Back({ to = '/settings', text }: { to?: string; text?: string }) {
  return (
    <a class="back" href={to}>
      {text ?? say('settings.toSettings')}
    </a>
  );
}
