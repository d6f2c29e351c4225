/** Draft: no native speaker has read it. The list of jobs. */
export const work = {
  nextTitle: 'Zotsatira, nkhokwe ndi nkhokwe',
  noBeds: 'Palibe nkhokwe yofotokozedwa. Konzerani pansipa, kapena fotokozani mu Zokonza.',
  notFilled: 'Sinadzazidwebe.',
  emptied: 'Malinga ndi kaundula palibe mbatata yotsala. Ikhoza kukonzedwera nyengo ina.',
  isReady: 'Mfundo zonse za mndandanda zakwaniritsidwa: ikhoza kudzazidwa.',
  isOverridden: 'Wina walola kuti idzazidwe ngakhale choncho, ndi chifukwa.',
  isOpen:
    'Pa mfundo {all} musanadzaze, {notMet, plural, =0 {palibe yokana} one {imodzi ikukana} other {# zikukana}} ndipo {unknown, plural, =0 {zonse zikudziwika} one {imodzi sikudziwikabe} other {# sizikudziwikabe}}.',
  lookDue: 'Nthawi yoona ndi manja inakwana {day} ({ago}).',
  lookLater: 'Kuona ndi manja kotsatira pa {day} ({ago}).',
  lookDueLong: 'Nthawi yoona ndi manja inakwana {day}.',
  lookLaterLong: 'Kuona ndi manja kotsatira pa {day}.',
  seasonTitle: 'Nyengo, ntchito ndi ntchito',
  noBed: 'Palibe nkhokwe yodikira izi panopa.',
  jobAtBeds: '{job}: pa nkhokwe iti',
  keptPlan: 'Zasungidwa pa chipangizo ichi: {name}',
  draftSand: 'Zayambidwa pa chipangizo ichi: mchenga umene kuunika kwake sikunathe',
  draftReady: 'Zayambidwa pa chipangizo ichi: mayankho a {bed} amene sanatumizidwe',
  plan: 'Konzerani nkhokwe',
  planAbout: 'Kuchokera ku mbatata zimene mukufuna kusunga, kapena malo amene muli nawo. Musanakumbe.',
  sand: 'Unikani mchenga',
  sandAbout:
    'Kodi ndi waukulu bwino, woyera, wouma ndi wozizira? Malinga ndi zimene munasefa, kuyeza ndi sikelo ndi kuyeza kutentha.',
  ready: 'Kodi yakonzeka?',
  readyAbout:
    'Yenderani mndandanda mbatata zisanalowe: zimene zoyezera zikunena, ndi zimene inu nokha mungaone.',
  readyGo: 'Yenderani mndandanda',
  fill: 'Dzazani nkhokwe',
  fillAbout: 'Lembani zimene zinalowa, msanjiko ndi msanjiko, ndi pamene pali zoyezera.',
  fillGo: 'Idzazeni',
  inspect: 'Onani ndi manja',
  inspectAbout: 'Masabata awiri aliwonse, msanga kukatentha: zimene munapeza, ndi zoyenera kuchita.',
  inspectGo: 'Lembani zimene mwaona',
  stock: 'Mbatata zolowa ndi zotuluka',
  stockAbout:
    'Zimene zinatengedwa, kugulitsidwa, kutayidwa kapena kubwezedwa, ndi nthawi imene zotsala zidzakwane.',
  outlook: 'Zimene zidzatsale',
  outlookAbout: 'Mwezi ndi mwezi, ndi ngati kusunga kumapindula kuposa kugulitsa tsopano.',
  season: 'Lipoti la nyengo',
  seasonAbout:
    'Zimene zinasungidwa ndi zimene zinatayika, pa nkhokwe imodzi kapena zingapo pambali pambali, zosindikiza.',
} as const;
