/** Draft: no native speaker has read it. The page as something that this device keeps. */
export const device = {
  newer: 'Kuna toleo jipya la ukurasa huu. Ulichoandika hapa kitapotea ukilichukua: kitume kwanza.',
  takeNewer: 'Chukua toleo jipya',
  keepTitle: 'Weka ukurasa huu kwenye kifaa hiki',
  keep: 'Utafunguka kama programu nyingine, hata bila mtandao, na kuonyesha kilichoonekana mwisho.',
  keepNow: 'Weka hapa',
} as const;
