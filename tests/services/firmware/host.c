/*
 * Runs the encoder on the machine of the tests: a command on each line of standard input, one line back.
 * Buffers are taken from the heap at exactly the size asked for, so that the sanitizer sees a write past the end.
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "sandlarder.h"
#include "text.h"

enum { LONGEST_LINE = 4096 };

static struct sl_queue queue;
static struct sl_clock wall_clock;
static struct sl_back_off back_off;

static char *word(void) {
  char *next = strtok(NULL, " ");
  return next == NULL ? "" : next;
}

static int32_t number(void) {
  char *next = word();
  return strcmp(next, "-") == 0 ? SL_ABSENT : (int32_t)strtol(next, NULL, 10);
}

static uint32_t natural(void) {
  return (uint32_t)strtoul(word(), NULL, 10);
}

/* Bytes written in hexadecimal, in memory of just their length: reading past them is seen. */
static uint8_t *bytes(size_t *count) {
  char *hex = word();
  *count = strlen(hex) / 2;
  uint8_t *read = malloc(*count + (*count == 0));
  for (size_t i = 0; i < *count; i++) {
    char pair[3] = {hex[2 * i], hex[2 * i + 1], '\0'};
    read[i] = (uint8_t)strtoul(pair, NULL, 16);
  }
  return read;
}

static void answer_checksum(const char *command) {
  size_t count;
  uint8_t *read = bytes(&count);
  if (strcmp(command, "crc-one-wire") == 0) printf("%02X\n", sl_crc8_one_wire(read, count));
  else if (strcmp(command, "crc-humidity") == 0) printf("%02X\n", sl_crc8_humidity(read, count));
  else printf("%02X\n", sl_sum8(read, count));
  free(read);
}

/* Values begin at 777 777: what is not written shows as that. */
static void answer_frame(const char *command) {
  size_t count;
  uint8_t *frame = bytes(&count);
  int32_t first = 777777, second = 777777;
  enum sl_result result;
  if (strcmp(command, "address") == 0) result = sl_one_wire_address(frame);
  else if (strcmp(command, "one-wire") == 0) result = sl_one_wire_temperature(frame, &first);
  else if (strcmp(command, "i2c") == 0) result = sl_i2c_humidity(frame, &first, &second);
  else result = sl_single_wire_humidity(frame, &first, &second);
  free(frame);
  printf("%d %ld %ld\n", (int)result, (long)first, (long)second);
}

static void answer_begin(void) {
  uint32_t capacity = natural();
  free(queue.slots);
  struct sl_reading *slots = malloc(capacity * sizeof *slots + (capacity == 0));
  enum sl_result result = sl_queue_begin(&queue, slots, (uint16_t)capacity, natural());
  if (result != SL_OK) queue.slots = slots;
  sl_clock_begin(&wall_clock);
  printf("%d\n", (int)result);
}

static void answer_add(void) {
  struct sl_reading reading = sl_reading_at(natural());
  reading.temperature_mC = number();
  reading.humidity_mRH = number();
  reading.battery_mV = number();
  printf("%d\n", (int)sl_queue_add(&queue, &reading));
}

static void answer_queue(void) {
  printf("%u", (unsigned)queue.lost);
  for (uint16_t place = 0; place < queue.count; place++) {
    const struct sl_reading *reading = sl_queue_at(&queue, place);
    printf(" %u:%u", (unsigned)reading->sequence, (unsigned)reading->at_s);
  }
  printf("\n");
}

/* Adds readings and acknowledges each at once, so that the ring goes round. */
static void answer_turn(void) {
  uint32_t turns = natural();
  for (uint32_t turn = 0; turn < turns; turn++) {
    struct sl_reading reading = sl_reading_at(queue.next_at_s);
    reading.temperature_mC = 0;
    sl_queue_add(&queue, &reading);
    sl_queue_release(&queue, queue.next_sequence - 1);
  }
  printf("%u\n", (unsigned)turns);
}

static void answer_clock(void) {
  uint32_t uptime_s = natural(), epoch_s = natural(), earliest_s = natural();
  enum sl_result result = sl_clock_set(&wall_clock, uptime_s, epoch_s, earliest_s);
  printf("%d %d %u\n", (int)result, wall_clock.known, (unsigned)wall_clock.epoch_at_zero_s);
}

static void answer_pack(void) {
  size_t size = natural();
  char *buffer = malloc(size + (size == 0));
  struct sl_pack pack = {0, 0, 0};
  enum sl_result result = sl_pack_write(&queue, &wall_clock, natural(), buffer, size, &pack);
  printf("%d %u %u %u %s\n", (int)result, (unsigned)pack.length, (unsigned)pack.readings,
         (unsigned)pack.last_sequence, size == 0 ? "" : buffer);
  free(buffer);
}

static void answer_topic(void) {
  size_t size = natural();
  enum sl_topic_kind kind = strcmp(word(), "status") == 0 ? SL_STATUS : SL_READINGS;
  char *site = word(), *probe = word(), *buffer = malloc(size + (size == 0));
  enum sl_result result = sl_topic_write(buffer, size, site, probe, kind);
  printf("%d %s\n", (int)result, size == 0 ? "" : buffer);
  free(buffer);
}

static void answer_milli(void) {
  char buffer[32];
  struct sl_text text = sl_text_begin(buffer, sizeof buffer);
  sl_text_add_milli(&text, (int32_t)strtol(word(), NULL, 10));
  printf("%s\n", buffer);
}

static void answer_back_off(const char *command) {
  if (strcmp(command, "back-off-next") == 0) {
    printf("%u\n", (unsigned)sl_back_off_next_s(&back_off, natural()));
    return;
  }
  if (strcmp(command, "back-off-reset") == 0) sl_back_off_reset(&back_off);
  else {
    uint32_t first_s = natural();
    sl_back_off_begin(&back_off, first_s, natural());
  }
  printf("0\n");
}

static void answer(const char *command) {
  if (strncmp(command, "crc-", 4) == 0 || strcmp(command, "sum") == 0) answer_checksum(command);
  else if (strcmp(command, "begin") == 0) answer_begin();
  else if (strcmp(command, "add") == 0) answer_add();
  else if (strcmp(command, "release") == 0) printf("%u\n", (unsigned)sl_queue_release(&queue, natural()));
  else if (strcmp(command, "queue") == 0) answer_queue();
  else if (strcmp(command, "turn") == 0) answer_turn();
  else if (strcmp(command, "clock") == 0) answer_clock();
  else if (strcmp(command, "pack") == 0) answer_pack();
  else if (strcmp(command, "topic") == 0) answer_topic();
  else if (strcmp(command, "milli") == 0) answer_milli();
  else if (strcmp(command, "driver") == 0) printf("%d\n", (int)sl_driver_temperature(number()));
  else if (strncmp(command, "back-off", 8) == 0) answer_back_off(command);
  else answer_frame(command);
}

int main(void) {
  static char line[LONGEST_LINE];
  while (fgets(line, sizeof line, stdin) != NULL) {
    line[strcspn(line, "\n")] = '\0';
    char *command = strtok(line, " ");
    answer(command == NULL ? "" : command);
    fflush(stdout);
  }
  free(queue.slots);
  return 0;
}
