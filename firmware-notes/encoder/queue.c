#include "queue.h"

#include <stdbool.h>

static const int32_t LOWEST_mC = -273150;
static const int32_t HIGHEST_mC = 1000000;
static const int32_t LOWEST_mRH = -20000;
static const int32_t HIGHEST_mRH = 130000;
static const int32_t LOWEST_mV = 0;
static const int32_t HIGHEST_mV = 1000000;

enum { SMALLEST_CAPACITY = 3 };

struct sl_reading sl_reading_at(uint32_t at_s) {
  struct sl_reading reading = {at_s, 0, SL_ABSENT, SL_ABSENT, SL_ABSENT};
  return reading;
}

enum sl_result sl_queue_begin(struct sl_queue *queue, struct sl_reading *slots, uint16_t capacity,
                              uint32_t first_sequence) {
  if (!(capacity >= SMALLEST_CAPACITY)) {
    return SL_OUT_OF_RANGE;
  }
  queue->slots = slots;
  queue->capacity = capacity;
  queue->first = 0;
  queue->count = 0;
  queue->next_sequence = first_sequence;
  queue->next_at_s = 0;
  queue->lost = 0;
  return SL_OK;
}

/* The ring: the oldest reading lies at `first`, the others after it, round the end to the beginning. */
static struct sl_reading *slot(const struct sl_queue *queue, uint32_t place) {
  return &queue->slots[(queue->first + place) % queue->capacity];
}

const struct sl_reading *sl_queue_at(const struct sl_queue *queue, uint16_t place) {
  return slot(queue, place);
}

static bool fits(int32_t value, int32_t lowest, int32_t highest) {
  return value == SL_ABSENT || (value >= lowest && value <= highest);
}

static enum sl_result checked(const struct sl_queue *queue, const struct sl_reading *reading) {
  if (reading->temperature_mC == SL_ABSENT && reading->humidity_mRH == SL_ABSENT &&
      reading->battery_mV == SL_ABSENT) {
    return SL_NO_VALUE;
  }
  if (!fits(reading->temperature_mC, LOWEST_mC, HIGHEST_mC) ||
      !fits(reading->humidity_mRH, LOWEST_mRH, HIGHEST_mRH) || !fits(reading->battery_mV, LOWEST_mV, HIGHEST_mV)) {
    return SL_OUT_OF_RANGE;
  }
  return reading->at_s >= queue->next_at_s && reading->at_s < UINT32_MAX ? SL_OK : SL_BAD_TIME;
}

/* Time between the neighbours of a reading, s; the newest of the queue has the reading that is about to come. */
static uint32_t gap_without(const struct sl_queue *queue, uint32_t place, uint32_t coming_at_s) {
  uint32_t after_s = place + 1 < queue->count ? slot(queue, place + 1)->at_s : coming_at_s;
  return after_s - slot(queue, place - 1)->at_s;
}

static uint32_t least_missed(const struct sl_queue *queue, uint32_t coming_at_s) {
  uint32_t least = 1;
  for (uint32_t place = 2; place < queue->count; place++) {
    if (gap_without(queue, place, coming_at_s) < gap_without(queue, least, coming_at_s)) {
      least = place;
    }
  }
  return least;
}

static void throw_away(struct sl_queue *queue, uint32_t place) {
  for (; place + 1 < queue->count; place++) {
    *slot(queue, place) = *slot(queue, place + 1);
  }
  queue->count--;
  queue->lost += queue->lost < UINT32_MAX ? 1u : 0u;
}

static void append(struct sl_queue *queue, const struct sl_reading *reading) {
  struct sl_reading *newest = slot(queue, queue->count);
  *newest = *reading;
  newest->sequence = queue->next_sequence++;
  queue->next_at_s = reading->at_s + 1;
  queue->count++;
}

enum sl_result sl_queue_add(struct sl_queue *queue, const struct sl_reading *reading) {
  enum sl_result check = checked(queue, reading);
  if (check != SL_OK) {
    return check;
  }
  bool full = queue->count == queue->capacity;
  if (full) {
    throw_away(queue, least_missed(queue, reading->at_s));
  }
  append(queue, reading);
  return full ? SL_THINNED : SL_OK;
}

/* Numbers go round after 2^32: the one that is less than half a round behind is the earlier. */
static bool is_up_to(uint32_t sequence, uint32_t last_sequence) {
  return last_sequence - sequence < 0x80000000u;
}

uint16_t sl_queue_release(struct sl_queue *queue, uint32_t last_sequence) {
  uint16_t released = 0;
  while (queue->count > 0 && is_up_to(slot(queue, 0)->sequence, last_sequence)) {
    queue->first = (uint16_t)((queue->first + 1u) % queue->capacity);
    queue->count--;
    released++;
  }
  return released;
}
