/*
 * A probe's program from top to bottom: read a frame, make a value of it, keep it, make a pack, publish it.
 *
 * It runs on a desk computer: the sensors are frames printed in data sheets, the radio writes to the screen. On a probe
 * you replace what stands under "Replace this", and `main`.
 *
 *   cc -std=c99 -o example *.c && ./example
 */
#include <stdio.h>

#include "sandlarder.h"

static const char *const SITE = "ridge-station";
static const char *const PROBE = "p01";

/* One reading every ten minutes. */
static const uint32_t MEASURE_EVERY_s = 600;

/* 2026-01-01T00:00:00Z: the day on which this program was made. No right clock shows less. */
static const uint32_t EARLIEST_EPOCH_s = 1767225600;

/* All the memory that is needed: 48 readings are 960 bytes and hold eight hours, or sixteen with every second one. */
static struct sl_reading slots[48];
static struct sl_queue queue;
static struct sl_clock wall_clock;
static struct sl_back_off back_off;
static char topic[SL_TOPIC_bytes];
static char payload[512];

/* ---- Replace this: your buses, battery, timer and radio. ---- */

/* Seconds since the start, by a timer that goes on while the probe sleeps. */
static uint32_t uptime_s;

static bool network_is_there(void) {
  return uptime_s >= 3 * 600;
}

/* s since 1970 as the network says, 0 while it does not. This network first says a wrong one. */
static uint32_t network_epoch_s(void) {
  return uptime_s < 4 * 600 ? 86400 : 1780000000 + uptime_s;
}

/* Starts a conversion, waits 750 ms, reads the scratchpad. The first answer after power came on is 85 degrees. */
static void read_thermometer(uint8_t scratchpad[SL_SCRATCHPAD_bytes]) {
  static const uint8_t power_on[] = {0x50, 0x05, 0x4B, 0x46, 0x7F, 0xFF, 0x0C, 0x10, 0x1C};
  static const uint8_t warm[] = {0x91, 0x01, 0x4B, 0x46, 0x7F, 0xFF, 0x0F, 0x10, 0x25};
  static int reads = 0;
  const uint8_t *answer = reads == 0 ? power_on : warm;
  for (int i = 0; i < SL_SCRATCHPAD_bytes; i++) {
    scratchpad[i] = answer[i];
  }
  reads++;
}

/* Waits 2 s since the last read. This sensor's line is shorted while uptime is 600: zeros, whose sum fits. */
static void read_humidity(uint8_t frame[SL_SINGLE_WIRE_bytes]) {
  static const uint8_t damp[] = {0x02, 0x8C, 0x01, 0x5F, 0xEE};
  for (int i = 0; i < SL_SINGLE_WIRE_bytes; i++) {
    frame[i] = uptime_s == 600 ? 0x00 : damp[i];
  }
}

static int32_t battery_mV(void) {
  return 3020;
}

/* Publishes at QoS 1 and waits: whether the PUBACK came. */
static bool publish(const char *to, const char *text, size_t length) {
  printf("%s %.*s\n", to, (int)length, text);
  return true;
}

/* ---- From here on nothing needs to be replaced. ---- */

/* Reads once more where the first read failed, and says so where both did. */
static void measure_temperature(struct sl_reading *reading) {
  uint8_t scratchpad[SL_SCRATCHPAD_bytes];
  enum sl_result result = SL_POWER_ON;
  for (int attempt = 0; attempt < 2 && result != SL_OK; attempt++) {
    reading->temperature_mC = SL_NO_TEMPERATURE_mC;
    read_thermometer(scratchpad);
    result = sl_one_wire_temperature(scratchpad, &reading->temperature_mC);
  }
}

/* The thermometer in the humidity sensor is the worse one: its value is not used. */
static void measure_humidity(struct sl_reading *reading) {
  uint8_t frame[SL_SINGLE_WIRE_bytes];
  enum sl_result result = SL_ALL_ZERO;
  for (int attempt = 0; attempt < 2 && result != SL_OK; attempt++) {
    int32_t unused_mC;
    reading->humidity_mRH = SL_NO_HUMIDITY_mRH;
    read_humidity(frame);
    result = sl_single_wire_humidity(frame, &unused_mC, &reading->humidity_mRH);
  }
}

static void measure(void) {
  struct sl_reading reading = sl_reading_at(uptime_s);
  measure_temperature(&reading);
  measure_humidity(&reading);
  reading.battery_mV = battery_mV();
  sl_queue_add(&queue, &reading);
}

/* Sends pack after pack until the queue is empty. A pack that was not acknowledged stays in it, and is written anew. */
static bool send_all(void) {
  struct sl_pack pack;
  while (sl_pack_write(&queue, &wall_clock, uptime_s, payload, sizeof payload, &pack) == SL_OK) {
    if (!publish(topic, payload, pack.length)) {
      return false;
    }
    sl_queue_release(&queue, pack.last_sequence);
  }
  return true;
}

/* Whether all was sent. Where it was not, the next attempt is put off. */
static bool connect_and_send(void) {
  if (!network_is_there()) {
    return false;
  }
  sl_clock_set(&wall_clock, uptime_s, network_epoch_s(), EARLIEST_EPOCH_s);
  return send_all();
}

static void begin(void) {
  sl_queue_begin(&queue, slots, sizeof slots / sizeof slots[0], 1);
  sl_clock_begin(&wall_clock);
  sl_back_off_begin(&back_off, 60, 3600);
  sl_topic_write(topic, sizeof topic, SITE, PROBE, SL_READINGS);
}

int main(void) {
  uint32_t try_at_s = 0;
  begin();
  for (uptime_s = 0; uptime_s <= 6 * MEASURE_EVERY_s; uptime_s += MEASURE_EVERY_s) {
    measure();
    if (uptime_s < try_at_s) {
      continue;
    }
    if (connect_and_send()) {
      sl_back_off_reset(&back_off);
    } else {
      try_at_s = uptime_s + sl_back_off_next_s(&back_off, uptime_s);
    }
  }
  return 0;
}
