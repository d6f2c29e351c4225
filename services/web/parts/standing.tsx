/** How a bed stands: by shape, by word and by colour. */
import { say } from '../words/say.js';

export type Stands = 'unfilled' | 'learning' | 'sound' | 'check' | 'unpack' | 'service';

/** Each shape is known by its outline alone: open box, sprouting dots, leaf, open eye, spade, buried pin. Drawn in a square of 24. */
const SHAPES: Readonly<Record<Stands, string>> = {
  unfilled: 'M4 6v13h16V6',
  sound: 'M12 3C6 6 4 12 6 20c8 0 14-5 14-16-3-1-6-1-8-1ZM7 19 16 8',
  learning: 'M5 12h.01M12 12h.01M19 12h.01M8.500 7h.01M15.500 7h.01M8.500 17h.01M15.500 17h.01',
  check: 'M2 12C6 5 18 5 22 12 18 19 6 19 2 12ZM12 9a3 3 0 1 1 0 6 3 3 0 1 1 0-6',
  unpack: 'M12 2v9M8 2h8M7 11h10v4c0 4-3 6-5 7-2-1-5-3-5-7Z',
  service: 'M9 3h6v6l-2 2v9l-1 2-1-2v-9L9 9ZM3 15h5M16 15h5',
};

export function StandingShape({ stands }: { stands: Stands }) {
  return (
    <svg viewBox="0 0 24 24" aria-hidden="true">
      <path
        d={SHAPES[stands]}
        fill={stands === 'unpack' ? 'currentColor' : 'none'}
        stroke="currentColor"
        stroke-width={stands === 'learning' ? 4 : 2}
        stroke-linecap="round"
        stroke-linejoin="round"
      />
    </svg>
  );
}

export function Standing({ stands }: { stands: Stands }) {
  return (
    <span class="standing" data-stands={stands}>
      <StandingShape stands={stands} />
      {say(`parts.${stands}`)}
    </span>
  );
}
