/** Every bound of the HTTP edge, with its unit and what it protects. */
export const HTTP_LIMITS = Object.freeze({
  /** Body of a request: the largest that is asked for is an inspection of a few hundred bytes. */
  body_bytes: 64 * 1024,
  /** Target of a request, path and query: longer ones come from no link of this service. */
  url_bytes: 2048,
  /** One part of a path: the longest is the id of an alarm. */
  pathPart_characters: 160,
  /** All headers of a request together. */
  headers_bytes: 16 * 1024,
  /** From the first byte of a request to the end of its headers: a slow sender holds a socket. */
  headersTimeout_ms: 5_000,
  /** From the first byte of a request to its last. */
  requestTimeout_ms: 10_000,
  /** Silence on an open socket. */
  connectionTimeout_ms: 30_000,
  /** Silence between two requests on one socket. */
  keepAliveTimeout_ms: 5_000,
  /** For one part of the edge to be put together: a board that has just started is slow. */
  start_ms: 120_000,
  /** From the whole request to the answer. */
  handlerTimeout_ms: 30_000,
  /** Sockets open at once: each costs the board memory. */
  connections: 200,
  /** Requests over one socket before it is closed, so that no client holds one for ever. */
  requestsPerConnection: 10_000,
  /** Streams of what changes. */
  streams: {
    /** Open at once: of all sockets some must be left for questions. */
    open: 60,
    /** What a reader may leave untaken: some seconds of a site of a thousand beds. */
    backlog_bytes: 256 * 1024,
    /** Between two signs of life: shorter than the silence after which a socket is closed. */
    heartbeat_ms: 15_000,
    /** After how long a reader asks again when its stream ends. */
    retry_ms: 3_000,
    /** Longest life of one stream, so that none is held for ever by a reader that is gone. */
    life_ms: 12 * 3_600_000,
    /** For a reader to take what was sent when the service stops. */
    grace_ms: 1_000,
    /** Events kept for readers who were away for a moment: some minutes. */
    kept: 500,
  },
  /** Widest span of one question for readings: a season and the one before it. */
  span_days: 400,
  /** Span of a question for readings that names none. */
  defaultSpan_days: 7,
  /** Length of one probe's series. */
  points: { least: 10, usual: 600, most: 5_000 },
  /** Files of readings: of each format so many at a time, each for so long at the most; ask again after. */
  exports: { most: 3, life_ms: 2 * 3_600_000, retry_s: 10 },
  /** Beds that one export names. */
  bedsExported: 200,
  /** Requests for pages behind links within a minute: who guesses at signatures gets no further than that. */
  linkAttempts: { ofOne: 60, ofAll: 600 },
  /** Sign-ins, links looked at and links asked for within a minute. */
  signInAttempts: { ofOne: 30, ofAll: 120 },
  /** Rows of the audit trail on one page. */
  audit: { usual: 100, most: 500 },
  /** For how long a token of a machine holds, days. */
  token_days: { least: 1, usual: 400, most: 3_650 },
  /** Points of all probes of one answer together: some 3 MB, which keep the one thread of the service for tenths of a second. */
  pointsTogether: 30_000,
  /** Probes that one question for readings names. */
  probesNamed: 200,
  /** Span of a question for the daily swing that names none. */
  swingSpan_days: 30,
  /** Events on one page, and the length of the id of one: the longest is that of an alarm. */
  events: { usual: 200, most: 1_000, id_characters: 200 },
  /** Alarms on one page. */
  alarms: { usual: 100, most: 1_000 },
  /** Things that need a person, in one answer. */
  today: 500,
  /** Inspections on one page. */
  inspections: { usual: 50, most: 500 },
  /** Fillings, inspections and stock entries in one body: what a device writes down while it is out of reach. */
  writtenDown: 500,
  /** Body of a request with so many: a long inspection takes some kilobytes. */
  writtenDownBody_bytes: 2 * 1024 * 1024,
  /** Calibrations, bench works or field checks in one answer: each some kilobytes. */
  calibrations: { usual: 100, most: 1_000 },
  /** Records of a bed (sand, readiness) in one answer: each some kilobytes. */
  records: { usual: 50, most: 500 },
  /** Text of a file of calibration pairs: ten thousand of them. */
  csv_characters: 1_000_000,
  /** Body of a request that holds such a file, quoted. */
  csvBody_bytes: 2 * 1024 * 1024,
  /** Body of a site description: 20,000 probes take about 5 MB. */
  siteBody_bytes: 8 * 1024 * 1024,
  /** Body of a trial: 500 beds with long names of blocks and treatments. */
  trialBody_bytes: 256 * 1024,
  /** Probes on one page. */
  probes: { usual: 500, most: 2_000 },
  /** Quarantine entries in one answer: each carries up to 4 KiB of payload. */
  quarantine: { usual: 50, most: 200 },
});
