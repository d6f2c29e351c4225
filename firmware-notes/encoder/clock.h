/*
 * What the probe knows of the time of day.
 *
 * A probe counts seconds since it started (its uptime), by a timer that goes on while it sleeps. That count never
 * jumps, so readings are kept with it. When the time of day becomes known, from a network or a clock chip, it is kept
 * as the time of day at uptime 0, and every reading, also an older one, gets its time from that.
 */
#ifndef SL_CLOCK_H
#define SL_CLOCK_H

#include <stdbool.h>
#include <stdint.h>

#include "result.h"

/* 2000-01-01T00:00:00Z, s since 1970. The service sets aside what was measured before. */
#define SL_EARLIEST_EPOCH_s 946684800u

/* By how much a clock may wander and be left as it is, s: a reading that is sent again then has the same time. */
enum { SL_CLOCK_WANDER_s = 60 };

struct sl_clock {
  bool known;
  /* s since 1970 at uptime 0; of no meaning while the clock is not known. */
  uint32_t epoch_at_zero_s;
};

/* A clock that knows nothing yet. */
void sl_clock_begin(struct sl_clock *clock);

/*
 * Tells the clock the time of day. Refuses a time that cannot be right, so that a module which wakes up in 1970, 1980
 * or 2004 does no harm: the clock then stays as it was.
 *
 * uptime_s     s since the start
 * epoch_s      s since 1970, up to the year 2106
 * earliest_s   the day on which the firmware was made, s since 1970: no right clock shows less. Numbers below
 *              SL_EARLIEST_EPOCH_s count as that.
 *
 * SL_OK            taken in, or within SL_CLOCK_WANDER_s of what is known, which is then left as it is
 * SL_CLOCK_MOVED   it was known and is moved: readings that were sent and not acknowledged now have other times, and
 *                  the service may keep them twice
 * SL_BAD_TIME      before earliest_s, or so that uptime 0 lies before 2000
 */
enum sl_result sl_clock_set(struct sl_clock *clock, uint32_t uptime_s, uint32_t epoch_s, uint32_t earliest_s);

#endif
