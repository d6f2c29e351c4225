/** Draft: no native speaker has read it. What is to be done about an alarm, step by step. */
export const toldSteps = {
  goToday: 'Allez à {bed} aujourd’hui, à deux. Prenez des paniers, du sable sec et frais, et de quoi écrire.',
  waterFirst:
    'Cherchez par où l’eau peut entrer, d’abord au-dessus de cet endroit : toit, film, parois, fossé. Fermez avant de remettre quoi que ce soit.',
  coverOff: 'Enlevez la couverture et ouvrez le silo d’un côté.',
  digFirst: 'Creusez d’abord ici : {where}. Touchez et sentez le sable en descendant.',
  outwards:
    'Sortez les patates à partir de là vers l’extérieur, lit par lit, jusqu’à ce que sable et patates soient frais, secs et propres.',
  everyRoot: 'Touchez, sentez et regardez chaque patate, aussi celles autour d’une pourrie.',
  badSand: 'Enlevez le sable chaud, humide ou qui sent : il n’est pas remis.',
  goodBack:
    'Ne remettez que des patates fermes, sèches et entières, dans du sable sec et frais, et fermez le silo.',
  writeDown: 'Notez ce que vous avez trouvé, même rien : ainsi la surveillance l’apprend.',
  whereWarm: 'là où c’est chaud ou humide au toucher',
  nextVisit: 'À votre prochaine visite à {bed} : ouvrez le silo d’un côté.',
  handIn: 'Mettez une main dans le sable : {where}. Est-il plus chaud que le sable à côté du silo ?',
  whereSeveral: 'à plusieurs endroits, à chaque bout et au milieu',
  smellHand: 'Sentez votre main et le sable de cet endroit.',
  ifWarm: 'Si le sable est chaud ou sent mauvais, videz le silo tout de suite.',
  runFingers: 'Laissez couler le sable entre vos doigts : sec il coule, humide il colle.',
  cupSand:
    'Prenez une tasse de ce sable, pesez-la, séchez-la et pesez-la encore : au-dessus de 1 % d’eau, c’est trop humide.',
  ifClings: 'S’il colle, ou si des patates sont mouillées, videz le silo et cherchez par où l’eau entre.',
  ifWet: 'Si le sable y est mouillé, videz le silo aujourd’hui.',
  feelWet: 'Touchez les patates. Celles qui sont mouillées sèchent à l’ombre avant d’être remises.',
  keepClosed: 'Gardez le silo fermé tant que l’air dehors est chaud et humide.',
  someSprouts: 'Regardez quelques patates de chaque lit : y a-t-il des germes ?',
  rubOff:
    'Frottez les germes plus courts qu’un ongle de pouce (1,5 cm) et remettez la patate. Mangez les patates fermes et propres à germes plus longs, ou gardez-les pour planter.',
  someHoles: 'Regardez quelques patates de chaque lit : des trous, et des larves dans une patate coupée.',
  takeHoles: 'Enlevez chaque patate trouée, la patate entière, et enterrez-la loin de la réserve.',
  callOfficer:
    'Si vous trouvez des charançons, appelez l’agent de vulgarisation : d’autres patates ont des œufs ou des larves.',
  someAll: 'Regardez quelques patates de chaque lit : pourriture, germes, trous, patates rongées.',
  ifWarmAnywhere: 'Si le sable est chaud ou sent mauvais quelque part, videz le silo tout de suite.',
  askWho:
    'Demandez qui était à {bed} : a-t-il été ouvert, a-t-on sorti du sable ou des patates, déplacé des sondes ?',
  writeDone: 'Notez ce qui a été fait, et quand. D’ici là, on se fie moins aux sondes de ce silo.',
  nobodyThere: 'Si personne n’y était, regardez le silo : animaux, voleurs, toit ou paroi tombés.',
  nothingNow: 'Rien à faire maintenant.',
  findProbeAt: 'Cherchez {probe} de {bed}. Place : {where}.',
  findProbe: 'Cherchez {probe} de {bed}.',
  probeNamed: 'la sonde {id}',
  aProbe: 'une sonde',
  doStuck: 'Regardez le capteur et son câble : coupures, morsures, fiche lâche. Débranchez et rebranchez.',
  doCode: 'Regardez fiche, câble et pile : la sonde dit elle-même qu’elle ne mesure pas.',
  doNoisy: 'Regardez la fiche et l’humidité à l’intérieur : séchez, serrez et refermez de façon étanche.',
  doDead: 'Changez son capteur d’humidité : une fois mouillé longtemps, il revient rarement.',
  doClock:
    'Réglez son horloge, ou laissez-la prendre l’heure du réseau : ses mesures sont gardées, sans servir entre-temps.',
  doDrift1: 'Touchez le sable près de la sonde et comparez-le à celui d’un pas plus loin.',
  doDrift2: 'Enterrez une sonde étalonnée à côté pendant un jour et comparez les deux.',
  doDrift3: 'S’ils diffèrent, changez la sonde ou faites-la étalonner.',
  doHumid1: 'Touchez le sable près de la sonde : humide, il faut vider et chercher par où l’eau entre.',
  doHumid2: 'S’il est sec, mettez une sonde étalonnée à côté pendant un jour et comparez les deux.',
  doDue: 'Mettez-la au banc, ou enterrez une sonde étalonnée à côté pendant un jour.',
  doPulled: 'Remettez-la où elle était, et notez quand elle était dehors et où elle est maintenant.',
  doMisplaced: 'Mesurez où elle se trouve : en long, en large et en profondeur. Notez-le.',
  doAny: 'Regardez sa pile, son câble et son assise.',
  silent1: 'Regardez sa pile : est-elle chargée, ses contacts sont-ils propres ?',
  silent2: 'Regardez câble, fiche et assise, et l’antenne : est-elle couverte, pliée ou mouillée ?',
  silent3:
    'Voyez si d’autres sondes du silo parlent : si aucune, regardez d’abord la passerelle et son courant.',
  wet1: 'Touchez le sable à la sonde. S’il est mouillé, videz le silo aujourd’hui et cherchez par où l’eau entre.',
  wet2: 'S’il est sec, changez la sonde : son capteur d’humidité est en panne.',
  waitNext: 'Attendez sa prochaine mesure, et voyez si elle est comme les autres.',
  writeProbe: 'Notez ce que vous avez fait à la sonde, et quand.',
  food: 'Jetez toute patate moisie, amère ou pourrie, la patate entière : ne la mangez pas et ne la donnez pas aux animaux, même parée, cuite ou ensilée. Enterrez-la loin de la réserve.',
  digging:
    'Les fosses peuvent s’effondrer : tenez charges et gens loin du bord, et ne descendez pas seul dans une fosse plus profonde que votre taille.',
  lifting: 'Soulevez sable et patates près du corps, le dos droit, à deux si c’est lourd, et relayez-vous.',
  unseen:
    'Ce qu’aucune sonde ne voit : une seule patate qui pourrit à plus de 10 à 15 cm de toute sonde. La visite à la main toutes les deux semaines reste donc, quoi que disent les sondes.',
  sandCaution:
    'Touchez le sable à côté et sentez-le : sable chaud ou mauvaise odeur veut dire vider tout de suite, quoi que dise la sonde.',
  dryHands: 'Séchez vos mains avant d’ouvrir une sonde, et gardez-la hors du soleil.',
  within: '{place}, à {cm} cm près',
} as const;
