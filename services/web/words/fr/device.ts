/** Draft: no native speaker has read it. The page as something that this device keeps. */
export const device = {
  newer:
    'Il y a une version plus récente de cette page. Si vous la prenez, ce que vous avez écrit ici est perdu : envoyez-le d’abord.',
  takeNewer: 'Prendre la version plus récente',
  keepTitle: 'Garder cette page sur cet appareil',
  keep: 'Elle s’ouvre alors comme un autre programme, même sans réseau, et montre ce qui a été vu en dernier.',
  keepNow: 'La garder ici',
} as const;
