/*
 * Readings that wait to be sent, in memory that the caller gives.
 *
 * The rule when it is full: the reading that is missed least is thrown away, which is the one whose neighbours are
 * closest to each other in time; of several the oldest; never the oldest of all and never the newest. So an outage
 * twice as long as the queue holds is kept whole, with half as many readings an hour, instead of its second half
 * alone. What was thrown away is counted in `lost`, and each pack says that count.
 */
#ifndef SL_QUEUE_H
#define SL_QUEUE_H

#include <stdint.h>

#include "result.h"

/* A quantity that was not measured. */
#define SL_ABSENT INT32_MIN

/* What was measured at one time. 20 bytes. */
struct sl_reading {
  /* Uptime, s. */
  uint32_t at_s;
  /* Given by the queue: one more for each reading, so that gaps show what was lost. */
  uint32_t sequence;
  /* -273150 to 1000000 thousandths of a degree Celsius, or SL_ABSENT. */
  int32_t temperature_mC;
  /* -20000 to 130000 thousandths of a per cent, or SL_ABSENT. */
  int32_t humidity_mRH;
  /* 0 to 1000000 millivolt, or SL_ABSENT. */
  int32_t battery_mV;
};

/* Read its fields freely; change them only by the functions below. */
struct sl_queue {
  struct sl_reading *slots;
  uint16_t capacity;
  uint16_t first;
  uint16_t count;
  uint32_t next_sequence;
  /* A reading must be measured at this uptime or later, s. */
  uint32_t next_at_s;
  /* Readings thrown away since sl_queue_begin without an acknowledgement; stays at its greatest number. */
  uint32_t lost;
};

/* A reading without values, measured at an uptime in s. Fill in what was measured. */
struct sl_reading sl_reading_at(uint32_t at_s);

/*
 * An empty queue. Also after every restart: without the uptime that they were measured by, old readings have no time.
 *
 * slots            memory for capacity readings, which stays the queue's
 * capacity         3 to 65535
 * first_sequence   1, or the next number where one was kept over the restart
 *
 * SL_OK, or SL_OUT_OF_RANGE for a capacity below 3.
 */
enum sl_result sl_queue_begin(struct sl_queue *queue, struct sl_reading *slots, uint16_t capacity,
                              uint32_t first_sequence);

/*
 * Takes in a copy of a reading and gives it its sequence number. Time: at most capacity steps, only when full.
 *
 * reading   measured later than every one before it, by a second at least: the service keeps one value a quantity
 *           and time
 *
 * SL_OK
 * SL_THINNED        taken in, and an older one thrown away
 * SL_NO_VALUE       all three values are absent
 * SL_OUT_OF_RANGE   a value outside its range: the service would set it aside
 * SL_BAD_TIME       not later than the reading before it
 */
enum sl_result sl_queue_add(struct sl_queue *queue, const struct sl_reading *reading);

/* The reading at a place, 0 the oldest; place must be below queue->count. */
const struct sl_reading *sl_queue_at(const struct sl_queue *queue, uint16_t place);

/*
 * Forgets what was acknowledged: all readings up to a sequence number. To be called when the PUBACK of a pack has come,
 * and not before.
 *
 * last_sequence   as sl_pack_write gave it
 *
 * How many were forgotten: fewer than were sent where some were thrown away meanwhile.
 */
uint16_t sl_queue_release(struct sl_queue *queue, uint32_t last_sequence);

#endif
