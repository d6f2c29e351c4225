/** Draft: no native speaker has read it. The page as something that this device keeps. */
export const device = {
  newer: 'Pali tsamba latsopano. Mukalitenga, zimene mwalemba apa zidzatayika: yambani mwazitumiza.',
  takeNewer: 'Tengani tsamba latsopano',
  keepTitle: 'Sungani tsamba ili pa chipangizo ichi',
  keep: 'Kenako limatseguka ngati pulogalamu ina iliyonse, ngakhale kopanda netiweki, ndipo limaonetsa zimene zinaonedwa komaliza.',
  keepNow: 'Sungani apa',
} as const;
