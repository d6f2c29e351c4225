import { English } from '../parts/notice.js';

/** Sentences of the service, one a line. */
export function EnglishList({ texts }: { texts: readonly string[] }) {
  if (texts.length === 0) return null;
  return (
    <ul>
      {texts.map((text) => (
        <li key={text}>
          <English>{text}</English>
        </li>
      ))}
    </ul>
  );
}
