/** Draft: no native speaker has read it. The page as something that this device keeps. */
export const device = {
  newer: 'አዲስ የዚህ ገጽ ቅጂ አለ። ሲወሰድ እዚህ የጻፍከው ይጠፋል፦ መጀመሪያ ላከው።',
  takeNewer: 'አዲሱን ቅጂ ውሰድ',
  keepTitle: 'ይህን ገጽ በዚህ ስልክ ላይ አስቀምጥ',
  keep: 'ከዚያ እንደ ሌላ ፕሮግራም ይከፈታል፣ ያለ ኔትወርክም፤ መጨረሻ የታየውን ያሳያል።',
  keepNow: 'እዚህ አስቀምጥ',
} as const;
