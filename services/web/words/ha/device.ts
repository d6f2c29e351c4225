/** Draft: no native speaker has read it. The page as something that this device keeps. */
export const device = {
  newer: 'Akwai sabon shafin nan. Abin da ka rubuta a nan zai ɓace in an ɗauke shi: a aika tukuna.',
  takeNewer: 'Ɗauki sabon',
  keepTitle: 'Ajiye shafin nan a na’urar nan',
  keep: 'Zai buɗe kamar kowane shiri, ko babu intanet, ya nuna abin da aka gani na ƙarshe.',
  keepNow: 'Ajiye shi a nan',
} as const;
