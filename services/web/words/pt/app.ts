/** Draft: no native speaker has read it. The frame of the page. */
export const app = {
  name: 'Sandlarder',
  skip: 'Ir para o que está nesta página',
  ways: 'Partes desta página',
  told: 'O que toca a página toda',
  wayBeds: 'Silos',
  wayAlarms: 'Avisos',
  wayWork: 'Trabalhos',
  wayBench: 'Bancada',
  waySettings: 'Ajustes',
  opening: 'A abrir …',
  missingTitle: 'Esta página não existe',
  missing: 'Não há nada neste endereço. Pode continuar a partir dos silos.',
  brokenTitle: 'Não foi possível mostrar esta página',
  broken: 'Alguma coisa falhou: {what}. O que anotou e enviou está guardado. Carregue a página outra vez.',
  loadAgain: 'Carregar outra vez',
  noNetwork: 'O serviço não responde desde: {since}. Está a ver o que este aparelho viu por último.',
  noNetworkEver:
    'O serviço não responde. Mostra-se o que este aparelho já viu; o resto falta até ele responder.',
  waiting:
    '{count, plural, one {# ficha espera neste aparelho e será enviada} other {# fichas esperam neste aparelho e serão enviadas}} quando o serviço responder.',
  refused:
    '{count, plural, one {O serviço não aceitou # ficha. Abra-a, corrija-a e envie-a} other {O serviço não aceitou # fichas. Abra-as, corrija-as e envie-as}} outra vez.',
  sent: 'Enviado: {title}, anotado {when}.',
  madeUp: 'Uma época inventada, simulada para mostrar, de {from} a {to}. Estes silos não existem.',
  lookAtWaiting: 'Ver o que espera',
  draft:
    'Esta língua é um rascunho: nenhum falante nativo leu estes textos. Se uma palavra não for clara, pergunte, ou escolha o inglês.',
  foot: 'Uma sonda vê, no máximo, 20 a 30 cm à sua volta. Continue a verificação à mão de duas em duas semanas.',
} as const;
