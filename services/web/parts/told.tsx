/** A sentence of the service: in the language of the page where it is one of the closed list, else in English. */
import { toldHere } from '../words/told.js';
import { English } from './notice.js';

export function Told({ children, place }: { children: string; place?: string | undefined }) {
  const text = toldHere(children, place);
  return text === undefined ? <English>{children}</English> : <span>{text}</span>;
}
