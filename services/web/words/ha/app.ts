/** Draft: no native speaker has read it. The frame of the page. */
export const app = {
  name: 'Sandlarder',
  skip: 'Zuwa abin da ke shafin nan',
  ways: 'Sassan shafin nan',
  told: 'Abin da ya shafi shafin duka',
  wayBeds: 'Rumbuna',
  wayAlarms: 'Gargaɗi',
  wayWork: 'Aiki',
  wayBench: 'Daidaitawa',
  waySettings: 'Saituna',
  opening: 'Ana buɗewa …',
  missingTitle: 'Babu irin wannan shafi',
  missing: 'Babu komai a wannan adireshi. A ci gaba daga rumbuna.',
  brokenTitle: 'An kasa nuna wannan shafi',
  broken: 'Wani abu ya lalace: {what}. Abin da ka rubuta ka aika yana nan. A sake buɗe shafin.',
  loadAgain: 'Sake buɗewa',
  noNetwork: 'Ba a ji daga sabis ba tun {since}. Abin da kake gani shi aka gani na ƙarshe a na’urar nan.',
  noNetworkEver: 'Sabis ba ya amsawa. Ana nuna abin da na’urar nan ta gani a baya; saura babu sai ya amsa.',
  waiting:
    '{count, plural, one {Rubutu ɗaya na jira} other {Rubutu # na jira}} a na’urar nan, za a aika in sabis ya amsa.',
  refused:
    '{count, plural, one {Rubutu ɗaya} other {Rubutu #}} ba a karɓa ba a sabis. A buɗe, a gyara, a sake aikawa.',
  sent: 'An aika: {title}, an rubuta {when}.',
  madeUp: 'Kaka ta ƙirƙira, an kwaikwaya don nunawa, daga {from} zuwa {to}. Babu irin waɗannan rumbuna.',
  lookAtWaiting: 'Duba abin da ke jira',
  draft:
    'Wannan harshe daftari ne: babu mai harshen da ya karanta shi. In kalma ba ta gane ba, a tambaya, ko a zaɓi Turanci.',
  foot: 'Ma’auni na ganin cm 20 zuwa 30 kawai a kewaye da shi. A ci gaba da dubawa da hannu duk mako biyu.',
} as const;
