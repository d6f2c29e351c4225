#include "clock.h"

void sl_clock_begin(struct sl_clock *clock) {
  clock->known = false;
  clock->epoch_at_zero_s = 0;
}

static bool can_be_right(uint32_t uptime_s, uint32_t epoch_s, uint32_t earliest_s) {
  return epoch_s >= earliest_s && epoch_s >= SL_EARLIEST_EPOCH_s && epoch_s - SL_EARLIEST_EPOCH_s >= uptime_s;
}

static uint32_t apart_s(uint32_t one_s, uint32_t other_s) {
  return one_s > other_s ? one_s - other_s : other_s - one_s;
}

enum sl_result sl_clock_set(struct sl_clock *clock, uint32_t uptime_s, uint32_t epoch_s, uint32_t earliest_s) {
  if (!can_be_right(uptime_s, epoch_s, earliest_s)) {
    return SL_BAD_TIME;
  }
  uint32_t epoch_at_zero_s = epoch_s - uptime_s;
  if (clock->known && apart_s(epoch_at_zero_s, clock->epoch_at_zero_s) <= SL_CLOCK_WANDER_s) {
    return SL_OK;
  }
  enum sl_result result = clock->known ? SL_CLOCK_MOVED : SL_OK;
  clock->known = true;
  clock->epoch_at_zero_s = epoch_at_zero_s;
  return result;
}
