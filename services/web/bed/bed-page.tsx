import { useRoute } from 'preact-iso';
import { Title } from '../parts/title.js';

export default function BedPage() {
  const { params } = useRoute();
  return <Title>{params['bed'] ?? ''}</Title>;
}
