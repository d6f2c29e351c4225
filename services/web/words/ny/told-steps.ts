/** Draft: no native speaker has read it. What is to be done about an alarm, step by step. */
export const toldSteps = {
  goToday:
    'Pitani ku {bed} lero, anthu awiri. Tengani madengu, mchenga wouma ndi wozizira, ndi chinthu cholemberapo.',
  waterFirst:
    'Onani pamene madzi angalowere, choyamba pamwamba pa malowo: denga, pulasitiki, makoma, ngalande. Tsekani musanabwezere kalikonse.',
  coverOff: 'Chotsani chovundikira ndipo tsegulani nkhokwe kuchokera mbali imodzi.',
  digFirst: 'Kumbani apa kaye: {where}. Gwirani ndi kununkhiza mchenga pamene mukutsika.',
  outwards:
    'Chotsani mbatata kuyambira pamenepo kupita kunja, mzere ndi mzere, mpaka mchenga ndi mbatata zikhale zozizira, zouma ndi zoyera.',
  everyRoot: 'Gwirani, nunkhizani ndi kuyang’ana mbatata iliyonse, ngakhale zomwe zili pafupi ndi yowola.',
  badSand: 'Chotsani mchenga wotentha, wachinyezi kapena wonunkha: usabwezeredwe.',
  goodBack:
    'Bwezerani mbatata zolimba, zouma ndi zathunthu zokha, mu mchenga wouma ndi wozizira, ndipo tsekani nkhokwe.',
  writeDown: 'Lembani zomwe mwapeza, ngakhale palibe kalikonse: ndiye dongosolo lidzadziwa.',
  whereWarm: 'pamene pakumveka kutentha kapena chinyezi',
  nextVisit: 'Ulendo wotsatira ku {bed}: tsegulani nkhokwe kuchokera mbali imodzi.',
  handIn: 'Lowetsani dzanja mumchenga: {where}. Kodi ukutentha kuposa mchenga wa pambali pa nkhokwe?',
  whereSeveral: 'm’malo angapo, kumapeto konse ndi pakati',
  smellHand: 'Nunkhizani dzanja lanu ndi mchenga wa pamenepo.',
  ifWarm: 'Ngati mchenga ukutentha kapena kununkha, tulutsani mbatata zonse nthawi yomweyo.',
  runFingers: 'Lolani mchenga udutse pakati pa zala: wouma umadutsa, wachinyezi umamatira.',
  cupSand:
    'Tengani kapu ya mchengawo, muyese kulemera, muumitse, muyesenso: madzi oposa 1 % ndi chinyezi chochuluka.',
  ifClings: 'Ngati ukumatira, kapena mbatata zanyowa, tulutsani mbatata ndipo pezani pamene madzi akulowera.',
  ifWet: 'Ngati mchenga wa pamenepo wanyowa, tulutsani mbatata lero.',
  feelWet: 'Gwirani mbatata kuti muone ngati zanyowa. Zonyowa ziume pamthunzi zisanabwezeredwe.',
  keepClosed: 'Sungani nkhokwe yotseka pamene mpweya wakunja ukutentha ndi wachinyezi.',
  someSprouts: 'Onani mbatata zina za mzere uliwonse ngati zikuphuka.',
  rubOff:
    'Chotsani mphukira zazifupi kuposa chikhadabo cha chala chachikulu (1.5 cm) ndipo bwezerani mbatata. Zolimba ndi zoyera zokhala ndi mphukira zazitali idyani kapena sungani kuti zikhale mbewu.',
  someHoles: 'Onani mbatata zina za mzere uliwonse ngati zili ndi mabowo, ndi mphutsi mu mbatata yodulidwa.',
  takeHoles:
    'Chotsani mbatata iliyonse yokhala ndi mabowo, yonse yathunthu, ndipo ikwirireni kutali ndi nkhokwe.',
  callOfficer: 'Mukapeza ankhungwa, itanani mlangizi: zina zili ndi mazira kapena mphutsi mkati.',
  someAll: 'Onani mbatata zina za mzere uliwonse: kuwola, mphukira, mabowo, zokulungudwa.',
  ifWarmAnywhere: 'Ngati mchenga ukutentha kapena kununkha paliponse, tulutsani mbatata nthawi yomweyo.',
  askWho:
    'Funsani amene anali ku {bed}: kodi inatsegulidwa, mchenga kapena mbatata zinachotsedwa, zoyezera zinasunthidwa?',
  writeDone:
    'Lembani zomwe zinachitika, ndi nthawi. Mpaka pamenepo zoyezera za nkhokweyi sizidaliridwa kwambiri.',
  nobodyThere: 'Ngati panalibe aliyense, yang’anani nkhokwe: nyama, akuba, denga kapena khoma logwa.',
  nothingNow: 'Palibe chochita tsopano.',
  findProbeAt: 'Pezani {probe} cha {bed}. Chili: {where}.',
  findProbe: 'Pezani {probe} cha {bed}.',
  probeNamed: 'choyezera {id}',
  aProbe: 'choyezera',
  doStuck: 'Onani sensa ndi waya wake: modukadula, molumidwa, pulagi yomasuka. Zulani ndi kulumikizanso.',
  doCode: 'Onani pulagi, waya ndi batire: choyezera chokha chikunena kuti sichikuyeza.',
  doNoisy: 'Onani pulagi ndi chinyezi mkati: umitsani, limbitsani, ndi kutsekanso.',
  doDead: 'Sinthani sensa yake ya chinyezi: ikanyowa kwa nthawi yaitali simabwereranso.',
  doClock:
    'Konzani wotchi yake, kapena itenge nthawi ku netiweki: miyeso yake imasungidwa, koma siigwiritsidwa ntchito pano.',
  doDrift1: 'Gwirani mchenga wa pafupi ndi choyezera ndi kuyerekeza ndi wa pa sitepe imodzi.',
  doDrift2: 'Kwirirani choyezera choyesedwa pafupi ndi icho kwa tsiku limodzi ndi kuyerekeza ziwirizo.',
  doDrift3: 'Zikasiyana, sinthani choyezera kapena chiyesedwe.',
  doHumid1:
    'Gwirani mchenga wa pafupi ndi choyezera: chinyezi pamenepo chikutanthauza kutulutsa mbatata, ndi kupeza pamene madzi akulowera.',
  doHumid2: 'Ngati wauma, ikani choyezera choyesedwa pafupi kwa tsiku limodzi ndi kuyerekeza ziwirizo.',
  doDue: 'Chitengereni kokayesa, kapena kwirirani choyezera choyesedwa pafupi kwa tsiku limodzi.',
  doPulled: 'Chibwezereni pamene chinali, ndipo lembani nthawi imene chinali kunja ndi pamene chili tsopano.',
  doMisplaced: 'Yesani pamene chili: m’litali, m’lifupi, ndi kuya. Lembani.',
  doAny: 'Onani batire, waya ndi pokhala pake.',
  silent1: 'Onani batire yake: kodi ili ndi moto, zolumikizira ndi zoyera?',
  silent2: 'Onani waya, pulagi ndi pokhala, ndi mlongoti: kodi waphimbidwa, wapindika kapena wanyowa?',
  silent3:
    'Onani ngati zoyezera zina za nkhokweyo zikulankhula: ngati palibe, onani kaye geti ya netiweki ndi magetsi ake.',
  wet1: 'Gwirani mchenga pa choyezera. Ngati wanyowa, tulutsani mbatata lero ndi kupeza pamene madzi akulowera.',
  wet2: 'Ngati wauma, sinthani choyezera: sensa yake ya chinyezi yaonongeka.',
  waitNext: 'Dikirani muyeso wake wotsatira, ndi kuona ngati uli ngati ina.',
  writeProbe: 'Lembani zomwe mwachita pa choyezera, ndi nthawi.',
  food: 'Tayani mbatata iliyonse ya chuku, yowawa kapena yowola, yonse yathunthu: musadye kapena kupatsa ziweto, ngakhale yodulidwa, yophika kapena yosungidwa ngati sileji. Ikwirireni kutali ndi nkhokwe.',
  digging:
    'Maenje akhoza kugumuka: ikani katundu ndi anthu kutali ndi m’mphepete, ndipo musalowe nokha mu dzenje loposa m’chiuno.',
  lifting:
    'Nyamulani mchenga ndi mbatata pafupi ndi thupi, msana wowongoka, awiri ngati zalemera, ndipo sinthanani.',
  unseen:
    'Chomwe palibe choyezera chimaona: mbatata imodzi yowola yotalikirana ndi choyezera chilichonse kuposa 10 mpaka 15 cm. Choncho kuyang’ana ndi dzanja masabata awiri aliwonse kukhalebe, kaya zoyezera zinene chiyani.',
  sandCaution:
    'Gwirani mchenga wa pafupi, ndi kununkhiza: kutentha kapena kununkha kukutanthauza kutulutsa mbatata nthawi yomweyo, kaya choyezera chinene chiyani.',
  dryHands: 'Umitsani manja musanatsegule choyezera, ndipo chisakhale padzuwa.',
  within: '{place}, mkati mwa {cm} cm kuchokera pamenepo',
} as const;
