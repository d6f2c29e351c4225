/* Readings to a SenML pack in JSON (RFC 8428), as the service takes it in. */
#ifndef SL_PACK_H
#define SL_PACK_H

#include <stddef.h>
#include <stdint.h>

#include "clock.h"
#include "queue.h"
#include "result.h"

/* The service takes at most 5000 records in one pack, and a reading has up to three. */
enum { SL_PACK_MOST_readings = 5000 / 3 };

/* Enough for a pack of one reading, whatever its numbers, with its zero byte. */
enum { SL_PACK_SMALLEST_bytes = 256 };

struct sl_pack {
  /* Bytes to publish, without the zero byte at the end. */
  size_t length;
  /* Readings in it: the oldest of the queue. */
  uint16_t readings;
  /* For sl_queue_release, once the pack is acknowledged. */
  uint32_t last_sequence;
};

/*
 * Writes the oldest readings of a queue as one pack: as many as fit. The queue stays as it is.
 *
 * With a clock that is known, "bt" is the time of the first reading and "t" the seconds since then: the same reading
 * sent again has the same time, and the service keeps it once. Without one, "t" is relative to now and negative
 * [RFC 8428 4.5.3]: write the pack at the moment at which it is sent, and write it anew when it is sent again.
 *
 * The first record also has "seq", the sequence number of its reading, and "lost", what the queue has thrown away: the
 * service reads past labels that it does not know [RFC 8428 4.4]; whoever listens on the broker sees them.
 *
 * queue    readings to send
 * clock    known or not
 * now_s    uptime, s; not before the newest reading
 * buffer   size bytes; ends in a zero byte whenever size is above 0
 * pack     what was written; of no meaning unless SL_OK
 *
 * SL_OK
 * SL_EMPTY       no reading waits
 * SL_BAD_TIME    a reading lies after now_s (the uptime began anew: begin the queue anew), or the year passes 2106
 * SL_TOO_SMALL   not one reading fits; SL_PACK_SMALLEST_bytes always suffice
 */
enum sl_result sl_pack_write(const struct sl_queue *queue, const struct sl_clock *clock, uint32_t now_s, char *buffer,
                             size_t size, struct sl_pack *pack);

#endif
