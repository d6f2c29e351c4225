/** Draft: no native speaker has read it. The frame of the page. */
export const app = {
  name: 'Sandlarder',
  skip: 'Pitani ku zimene zili patsamba lino',
  ways: 'Magawo a tsamba lino',
  told: 'Zokhudza tsamba lonse',
  wayBeds: 'Nkhokwe',
  wayAlarms: 'Machenjezo',
  wayWork: 'Ntchito',
  wayBench: 'Koyesera',
  waySettings: 'Zokonza',
  opening: 'Likutsegula …',
  missingTitle: 'Tsamba limeneli palibe',
  missing: 'Palibe kanthu pa adilesi iyi. Mutha kuyambira ku nkhokwe.',
  brokenTitle: 'Tsamba ili lakanika kuonetsedwa',
  broken: 'China chake chalakwika: {what}. Zimene munalemba ndi kutumiza zasungidwa. Tsegulaninso tsamba.',
  loadAgain: 'Tsegulaninso',
  noNetwork: 'Sevisi sinayankhe kuyambira {since}. Mukuona zimene zinaonedwa komaliza pa chipangizo ichi.',
  noNetworkEver:
    'Sevisi sikuyankha. Zimene chipangizochi chinaona kale zikuonetsedwa; zina zikusowa mpaka itayankha.',
  waiting:
    '{count, plural, one {Cholembedwa chimodzi chikudikira} other {Zolembedwa # zikudikira}} pa chipangizo ichi. Zidzatumizidwa sevisi ikayankha.',
  refused:
    '{count, plural, one {Cholembedwa chimodzi chakanidwa} other {Zolembedwa # zakanidwa}} ndi sevisi. Tsegulani, konzani ndipo tumizaninso.',
  sent: 'Zatumizidwa: {title}, zolembedwa {when}.',
  madeUp:
    'Nyengo yongopeka, yoyerekeza pofuna kuonetsa, kuyambira {from} mpaka {to}. Nkhokwe zimenezi kulibe.',
  lookAtWaiting: 'Onani zimene zikudikira',
  draft:
    'Chiyankhulo ichi ndi cholembera chabe: palibe mwini chiyankhulochi amene wawerenga. Mawu akakhala osamveka, funsani, kapena sankhani Chingerezi.',
  foot: 'Zoyezera zimaona masentimita 20 mpaka 30 mozungulira basi. Pitirizani kuona ndi manja masabata awiri aliwonse.',
} as const;
