/** The frame of the page. */
export const app = {
  name: 'Sandlarder',
  skip: 'To what is on this page',
  ways: 'Parts of this page',
  told: 'What concerns the whole page',
  wayBeds: 'Beds',
  wayAlarms: 'Alarms',
  wayWork: 'Work',
  wayBench: 'Bench',
  waySettings: 'Settings',
  opening: 'Opening …',
  missingTitle: 'There is no such page',
  missing: 'Nothing is at this address. The beds are a good place to go on from.',
  brokenTitle: 'This page could not be shown',
  broken: 'Something in it went wrong: {what}. What you wrote down and sent is kept. Load the page again.',
  loadAgain: 'Load again',
  noNetwork: 'No word from the service since {since}. What you see is what was last seen on this device.',
  noNetworkEver:
    'The service does not answer. What this device saw of it earlier is shown; the rest is missing until it does.',
  waiting:
    '{count, plural, one {One record waits} other {# records wait}} on this device and will be sent when the service answers.',
  refused:
    '{count, plural, one {One record was} other {# records were}} not taken by the service. Open it, mend it and send it again.',
  sent: 'Sent: {title}, written down {when}.',
  madeUp: 'A made-up season, simulated for show, from {from} to {to}. There are no such beds.',
  lookAtWaiting: 'Look at what waits',
  draft:
    'This language is a draft: nobody who grew up with it has read it. Where a word is unclear, ask, or choose English.',
  foot: 'Probes see 20 to 30 cm around them at the best. The look by hand every two weeks stays.',
} as const;
