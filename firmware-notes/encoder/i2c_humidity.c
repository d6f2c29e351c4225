#include "checksum.h"
#include "sensors.h"

static const int32_t OFFSET_mC = -45000;
static const uint32_t QUARTER_SPAN_mC = 175000 / 4;
static const uint32_t QUARTER_SPAN_mRH = 100000 / 4;
static const int32_t LOWEST_mC = -40000;
static const int32_t HIGHEST_mC = 125000;

enum { WORD_bytes = 2, WORD_WITH_CRC_bytes = 3 };

static bool crc_fits(const uint8_t *word) {
  return sl_crc8_humidity(word, WORD_bytes) == word[WORD_bytes];
}

static uint32_t word_of(const uint8_t *bytes) {
  return ((uint32_t)bytes[0] << 8) | bytes[1];
}

/* span * word / 65535, rounded, in 32 bits: a quarter of the span times the word stays below 2^32. */
static int32_t scaled(uint32_t word, uint32_t quarter_span) {
  uint32_t product = quarter_span * word;
  uint32_t whole = product / 65535u;
  uint32_t rest = product % 65535u;
  return (int32_t)(4u * whole + (4u * rest + 32767u) / 65535u);
}

enum sl_result sl_i2c_humidity(const uint8_t frame[SL_I2C_HUMIDITY_bytes], int32_t *temperature_mC,
                               int32_t *humidity_mRH) {
  const uint8_t *second = frame + WORD_WITH_CRC_bytes;
  if (sl_all_bytes_are(frame, SL_I2C_HUMIDITY_bytes, 0x00)) {
    return SL_ALL_ZERO;
  }
  if (sl_all_bytes_are(frame, SL_I2C_HUMIDITY_bytes, 0xFF)) {
    return SL_ALL_ONE;
  }
  if (!crc_fits(frame) || !crc_fits(second)) {
    return SL_BAD_CHECKSUM;
  }
  int32_t measured_mC = OFFSET_mC + scaled(word_of(frame), QUARTER_SPAN_mC);
  if (!(measured_mC >= LOWEST_mC && measured_mC <= HIGHEST_mC)) {
    return SL_OUT_OF_RANGE;
  }
  *temperature_mC = measured_mC;
  *humidity_mRH = scaled(word_of(second), QUARTER_SPAN_mRH);
  return SL_OK;
}
