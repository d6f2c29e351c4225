/** Draft: no native speaker has read it. What each role may do, and who does what somebody may not. */
export const roles = {
  notYoursTitle: 'Pas pour votre rôle',
  notYours: 'Votre rôle : {role}. C’est l’affaire de : {who}. Un intendant peut vous donner un autre rôle.',
  notYourBed:
    'Vous faites cela à vos propres silos seulement : {beds}. Un intendant peut vous en donner d’autres.',
  notOffered: 'C’est l’affaire de : {who}.',
  title: 'Ce que chaque rôle peut faire',
  about:
    'Le service lui-même y tient chacun, sur la page et ailleurs. Un intendant donne les rôles sous « Connexion ».',
  yours: 'Votre rôle',
  atNamedBeds: 'aux silos nommés avec le rôle',
  others: 'Ce qui entre aussi, et par quoi',
  look: 'voir silos, mesures, alertes, notes et essais ; prévoir un silo ; juger le sable',
  'write-down': 'noter remplissages, contrôles, stock, sable et état prêt',
  'answer-alarms': 'dire qu’une alerte a été vue, et la remettre à plus tard',
  calibrate: 'étalonner les sondes',
  describe: 'décrire le site, ses silos et ses sondes ; régler les seuils',
  people: 'décrire personnes et groupes et comment les joindre ; reprendre un fichier de site',
  drill: 'envoyer un essai aux personnes d’un silo',
  compare: 'écrire des essais, les tirer au sort et les changer',
  measure: 'lire les chiffres du service lui-même',
  'hand-over': 'remettre les messages courts reçus',
  own: 'changer son mot de passe, mettre fin à ses connexions',
  administer: 'laisser entrer personnes, machines, sondes et lampes, et y mettre fin',
  audit: 'voir ce qui a été changé, et par qui',
} as const;
