/* Pauses between attempts to connect or to send: each twice the one before, up to a longest, shortened at random. */
#ifndef SL_BACK_OFF_H
#define SL_BACK_OFF_H

#include <stdint.h>

struct sl_back_off {
  uint32_t first_s;
  uint32_t longest_s;
  /* The next pause in full, s. */
  uint32_t next_s;
};

/*
 * first_s     the first pause, s, 1 or more
 * longest_s   no pause is longer, s; not below first_s
 */
void sl_back_off_begin(struct sl_back_off *back_off, uint32_t first_s, uint32_t longest_s);

/*
 * The pause before the next attempt, s: from half of its full length to all of it.
 *
 * random   any number, another on each probe: after a power cut they must not all come back at the same moment. Noise
 *          of an open analogue input, or the last bytes of the sensor's serial number added to the uptime, will do.
 */
uint32_t sl_back_off_next_s(struct sl_back_off *back_off, uint32_t random);

/* After a success: the next pause is the first again. */
void sl_back_off_reset(struct sl_back_off *back_off);

#endif
