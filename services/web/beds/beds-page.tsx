import { Title } from '../parts/title.js';
import { say } from '../words/say.js';

export default function BedsPage() {
  return <Title>{say('app.wayBeds')}</Title>;
}
