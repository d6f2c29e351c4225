#include "pack.h"

#include "text.h"

/* Where a record's time counts from. */
struct times {
  bool absolute;
  /* s since 1970 of the first reading, with a clock. */
  uint32_t base_epoch_s;
  /* Uptime that "t" counts from, s: that of the first reading with a clock, now without one. */
  uint32_t zero_s;
};

static struct times times_of(const struct sl_queue *queue, const struct sl_clock *clock, uint32_t now_s) {
  struct times times = {clock->known, 0, now_s};
  if (clock->known) {
    times.zero_s = sl_queue_at(queue, 0)->at_s;
    times.base_epoch_s = clock->epoch_at_zero_s + times.zero_s;
  }
  return times;
}

static bool is_possible(const struct sl_queue *queue, const struct sl_clock *clock, uint32_t now_s) {
  uint32_t newest_at_s = sl_queue_at(queue, (uint16_t)(queue->count - 1u))->at_s;
  return newest_at_s <= now_s && (!clock->known || clock->epoch_at_zero_s <= UINT32_MAX - now_s);
}

/* No "t" stands for 0. */
static void add_time(struct sl_text *text, const struct times *times, uint32_t at_s) {
  if (at_s == times->zero_s) {
    return;
  }
  sl_text_add(text, at_s < times->zero_s ? ",\"t\":-" : ",\"t\":");
  sl_text_add_whole(text, at_s < times->zero_s ? times->zero_s - at_s : at_s - times->zero_s);
}

/* What only the first record of a pack has. */
static void add_head(struct sl_text *text, const struct sl_queue *queue, const struct times *times) {
  if (times->absolute) {
    sl_text_add(text, "\"bt\":");
    sl_text_add_whole(text, times->base_epoch_s);
    sl_text_add(text, ",");
  }
  sl_text_add(text, "\"seq\":");
  sl_text_add_whole(text, sl_queue_at(queue, 0)->sequence);
  sl_text_add(text, ",\"lost\":");
  sl_text_add_whole(text, queue->lost);
  sl_text_add(text, ",");
}

/* The values of one reading on their way into the pack. */
struct writing {
  struct sl_text text;
  const struct sl_queue *queue;
  struct times times;
};

static void add_record(struct writing *writing, const char *name_and_unit, int32_t milli, uint32_t at_s) {
  struct sl_text *text = &writing->text;
  if (milli == SL_ABSENT) {
    return;
  }
  bool first = text->length == 0;
  sl_text_add(text, first ? "[{" : ",{");
  if (first) {
    add_head(text, writing->queue, &writing->times);
  }
  sl_text_add(text, name_and_unit);
  add_time(text, &writing->times, at_s);
  sl_text_add(text, ",\"v\":");
  sl_text_add_milli(text, milli);
  sl_text_add(text, "}");
}

/* Adds a reading whole, with room left for the bracket that ends the pack; or nothing of it. */
static bool add_reading(struct writing *writing, const struct sl_reading *reading) {
  size_t before = writing->text.length;
  add_record(writing, "\"n\":\"temperature\",\"u\":\"Cel\"", reading->temperature_mC, reading->at_s);
  add_record(writing, "\"n\":\"humidity\",\"u\":\"%RH\"", reading->humidity_mRH, reading->at_s);
  add_record(writing, "\"n\":\"battery\",\"u\":\"V\"", reading->battery_mV, reading->at_s);
  size_t after = writing->text.length;
  sl_text_add(&writing->text, "]");
  bool fits = !writing->text.full;
  sl_text_cut(&writing->text, fits ? after : before);
  return fits;
}

static uint16_t add_readings(struct writing *writing) {
  const struct sl_queue *queue = writing->queue;
  uint16_t most = queue->count < SL_PACK_MOST_readings ? queue->count : SL_PACK_MOST_readings;
  uint16_t added = 0;
  while (added < most && add_reading(writing, sl_queue_at(queue, added))) {
    added++;
  }
  return added;
}

enum sl_result sl_pack_write(const struct sl_queue *queue, const struct sl_clock *clock, uint32_t now_s, char *buffer,
                             size_t size, struct sl_pack *pack) {
  struct writing writing = {sl_text_begin(buffer, size), queue, {false, 0, 0}};
  if (queue->count == 0) {
    return SL_EMPTY;
  }
  if (!is_possible(queue, clock, now_s)) {
    return SL_BAD_TIME;
  }
  writing.times = times_of(queue, clock, now_s);
  pack->readings = add_readings(&writing);
  if (pack->readings == 0) {
    return SL_TOO_SMALL;
  }
  sl_text_add(&writing.text, "]");
  pack->length = writing.text.length;
  pack->last_sequence = sl_queue_at(queue, (uint16_t)(pack->readings - 1u))->sequence;
  return SL_OK;
}
