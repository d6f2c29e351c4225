#include "checksum.h"
#include "sensors.h"

static const int32_t POWER_ON_mC = 85000;
static const int32_t LOWEST_mC = -55000;
static const int32_t HIGHEST_mC = 125000;

/* The last byte is the CRC of those before it. A bus that is held low passes that check: it is looked for first. */
static enum sl_result checked(const uint8_t *bytes, size_t count) {
  if (sl_all_bytes_are(bytes, count, 0x00)) {
    return SL_ALL_ZERO;
  }
  if (sl_all_bytes_are(bytes, count, 0xFF)) {
    return SL_ALL_ONE;
  }
  return sl_crc8_one_wire(bytes, count - 1) == bytes[count - 1] ? SL_OK : SL_BAD_CHECKSUM;
}

enum sl_result sl_one_wire_address(const uint8_t rom[SL_ROM_bytes]) {
  return checked(rom, SL_ROM_bytes);
}

/* 0 R1 R0 1 1 1 1 1: the two bits R are the resolution, 9 to 12 bits. */
static bool is_configuration(uint8_t byte) {
  return (byte & 0x9Fu) == 0x1Fu;
}

/* Sixteenths of a degree, the bits below the resolution cleared. */
static int32_t sixteenths(const uint8_t *scratchpad) {
  unsigned resolution = (unsigned)(scratchpad[4] >> 5) & 3u;
  unsigned undefined_bits = (1u << (3u - resolution)) - 1u;
  int32_t raw = (int32_t)((((unsigned)scratchpad[1] << 8) | scratchpad[0]) & ~undefined_bits);
  return raw < 0x8000 ? raw : raw - 0x10000;
}

/* A sixteenth is 62.5 thousandths: 125 halves. */
static int32_t to_milli(int32_t raw) {
  int32_t halves = raw * 125;
  return halves < 0 ? (halves - 1) / 2 : (halves + 1) / 2;
}

enum sl_result sl_one_wire_temperature(const uint8_t scratchpad[SL_SCRATCHPAD_bytes], int32_t *temperature_mC) {
  enum sl_result check = checked(scratchpad, SL_SCRATCHPAD_bytes);
  if (check != SL_OK) {
    return check;
  }
  if (!is_configuration(scratchpad[4])) {
    return SL_BAD_FRAME;
  }
  int32_t measured_mC = to_milli(sixteenths(scratchpad));
  enum sl_result judged = sl_driver_temperature(measured_mC);
  if (judged == SL_OK || judged == SL_POWER_ON) {
    *temperature_mC = measured_mC;
  }
  return judged == SL_DISCONNECTED ? SL_OUT_OF_RANGE : judged;
}

enum sl_result sl_driver_temperature(int32_t temperature_mC) {
  if (temperature_mC == POWER_ON_mC) {
    return SL_POWER_ON;
  }
  if (temperature_mC == SL_NO_TEMPERATURE_mC) {
    return SL_DISCONNECTED;
  }
  return temperature_mC >= LOWEST_mC && temperature_mC <= HIGHEST_mC ? SL_OK : SL_OUT_OF_RANGE;
}
