/** The page as something that this device keeps. */
export const device = {
  newer:
    'A newer version of this page is there. What you have typed here is lost when it is taken: send it first.',
  takeNewer: 'Take the newer version',
  keepTitle: 'Keep this page on this device',
  keep: 'It then opens like any other program, without network too, and shows what was last seen.',
  keepNow: 'Keep it here',
} as const;
