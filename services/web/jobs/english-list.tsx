import { Told } from '../parts/told.js';

/** Sentences of the service, one a line; in English where they are of no closed list. */
export function EnglishList({ texts }: { texts: readonly string[] }) {
  if (texts.length === 0) return null;
  return (
    <ul>
      {texts.map((text) => (
        <li key={text}>
          <Told>{text}</Told>
        </li>
      ))}
    </ul>
  );
}
