#include "checksum.h"
#include "sensors.h"

static const int32_t LOWEST_mC = -40000;
static const int32_t HIGHEST_mC = 80000;
static const int32_t HIGHEST_mRH = 100000;

/* Tenths to thousandths. */
static const int32_t MILLI_PER_TENTH = 100;

/* The highest bit is the sign, the others the size. */
static int32_t signed_size(const uint8_t *bytes) {
  int32_t size = (int32_t)(((unsigned)(bytes[0] & 0x7Fu) << 8) | bytes[1]);
  return (bytes[0] & 0x80u) != 0 ? -size : size;
}

static enum sl_result checked(const uint8_t *frame) {
  if (sl_all_bytes_are(frame, SL_SINGLE_WIRE_bytes, 0x00)) {
    return SL_ALL_ZERO;
  }
  if (sl_all_bytes_are(frame, SL_SINGLE_WIRE_bytes, 0xFF)) {
    return SL_ALL_ONE;
  }
  return sl_sum8(frame, 4) == frame[4] ? SL_OK : SL_BAD_CHECKSUM;
}

enum sl_result sl_single_wire_humidity(const uint8_t frame[SL_SINGLE_WIRE_bytes], int32_t *temperature_mC,
                                       int32_t *humidity_mRH) {
  enum sl_result check = checked(frame);
  if (check != SL_OK) {
    return check;
  }
  int32_t measured_mRH = MILLI_PER_TENTH * (int32_t)(((unsigned)frame[0] << 8) | frame[1]);
  int32_t measured_mC = MILLI_PER_TENTH * signed_size(frame + 2);
  if (!(measured_mC >= LOWEST_mC && measured_mC <= HIGHEST_mC && measured_mRH <= HIGHEST_mRH)) {
    return SL_OUT_OF_RANGE;
  }
  *temperature_mC = measured_mC;
  *humidity_mRH = measured_mRH;
  return SL_OK;
}
