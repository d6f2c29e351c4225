/** Draft: no native speaker has read it. The frame of the page. */
export const app = {
  name: 'Sandlarder',
  skip: 'Aller au contenu de cette page',
  ways: 'Parties de cette page',
  told: 'Ce qui concerne toute la page',
  wayBeds: 'Silos',
  wayAlarms: 'Alertes',
  wayWork: 'Travaux',
  wayBench: 'Banc',
  waySettings: 'Réglages',
  opening: 'Ouverture …',
  missingTitle: 'Cette page n’existe pas',
  missing: 'Il n’y a rien à cette adresse. Vous pouvez repartir des silos.',
  brokenTitle: 'Cette page n’a pas pu être montrée',
  broken:
    'Quelque chose n’a pas marché : {what}. Ce que vous avez noté et envoyé est gardé. Chargez la page de nouveau.',
  loadAgain: 'Charger de nouveau',
  noNetwork:
    'Le service ne répond plus depuis : {since}. Vous voyez ce qui a été vu en dernier sur cet appareil.',
  noNetworkEver:
    'Le service ne répond pas. Ce que cet appareil en a vu plus tôt est montré ; le reste manque tant qu’il ne répond pas.',
  waiting:
    '{count, plural, one {# fiche attend sur cet appareil et sera envoyée} other {# fiches attendent sur cet appareil et seront envoyées}} quand le service répondra.',
  refused:
    '{count, plural, one {Le service n’a pas pris # fiche. Ouvrez-la, corrigez-la et envoyez-la} other {Le service n’a pas pris # fiches. Ouvrez-les, corrigez-les et envoyez-les}} de nouveau.',
  sent: 'Envoyé : {title}, noté {when}.',
  madeUp: 'Une saison inventée, simulée pour la démonstration, du {from} au {to}. Ces silos n’existent pas.',
  lookAtWaiting: 'Voir ce qui attend',
  draft:
    'Cette langue est une ébauche : aucun locuteur natif n’a lu ces textes. Si un mot n’est pas clair, demandez, ou choisissez l’anglais.',
  foot: 'Une sonde voit au mieux à 20 ou 30 cm autour d’elle. Le contrôle à la main toutes les deux semaines reste à faire.',
} as const;
