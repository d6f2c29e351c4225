/** Draft: no native speaker has read it. The frame of the page. */
export const app = {
  name: 'Sandlarder',
  skip: 'Nenda kwenye yaliyomo',
  ways: 'Sehemu za ukurasa huu',
  told: 'Yanayohusu ukurasa mzima',
  wayBeds: 'Hifadhi',
  wayAlarms: 'Maonyo',
  wayWork: 'Kazi',
  wayBench: 'Uhakiki',
  waySettings: 'Mipangilio',
  opening: 'Inafungua …',
  missingTitle: 'Hakuna ukurasa kama huo',
  missing: 'Hakuna kitu kwenye anwani hii. Anza tena kwenye hifadhi.',
  brokenTitle: 'Ukurasa huu haukuweza kuonyeshwa',
  broken: 'Kuna kitu kiliharibika: {what}. Ulichoandika na kutuma kimehifadhiwa. Fungua ukurasa tena.',
  loadAgain: 'Fungua tena',
  noNetwork: 'Huduma haijajibu tangu {since}. Unachoona ni kile kilichoonekana mwisho kwenye kifaa hiki.',
  noNetworkEver:
    'Huduma haijibu. Kinaonyeshwa kilichoonekana awali kwenye kifaa hiki; mengine hayapo hadi itakapojibu.',
  waiting:
    '{count, plural, one {Rekodi moja inasubiri} other {Rekodi # zinasubiri}} kwenye kifaa hiki na zitatumwa huduma ikijibu.',
  refused:
    '{count, plural, one {Rekodi moja haikupokelewa} other {Rekodi # hazikupokelewa}} na huduma. Fungua, rekebisha, tuma tena.',
  sent: 'Imetumwa: {title}, iliyoandikwa {when}.',
  madeUp: 'Msimu wa kubuni, ulioigizwa kwa maonyesho, kuanzia {from} hadi {to}. Hifadhi hizi hazipo.',
  lookAtWaiting: 'Tazama zinazosubiri',
  draft:
    'Lugha hii ni rasimu: hakuna mzungumzaji wake aliyeisoma. Neno lisipoeleweka, uliza au chagua Kiingereza.',
  foot: 'Vipimo huona cm 20 hadi 30 tu kuvizunguka. Endelea kukagua kwa mkono kila wiki mbili.',
} as const;
