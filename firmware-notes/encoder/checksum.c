#include "checksum.h"

static uint8_t shifted_low_bit_first(uint8_t crc) {
  for (int bit = 0; bit < 8; bit++) {
    bool out = (crc & 0x01u) != 0;
    crc = (uint8_t)(crc >> 1);
    crc = out ? crc ^ 0x8Cu : crc;
  }
  return crc;
}

static uint8_t shifted_high_bit_first(uint8_t crc) {
  for (int bit = 0; bit < 8; bit++) {
    bool out = (crc & 0x80u) != 0;
    crc = (uint8_t)(crc << 1);
    crc = out ? crc ^ 0x31u : crc;
  }
  return crc;
}

uint8_t sl_crc8_one_wire(const uint8_t *bytes, size_t count) {
  uint8_t crc = 0x00;
  for (size_t i = 0; i < count; i++) {
    crc = shifted_low_bit_first((uint8_t)(crc ^ bytes[i]));
  }
  return crc;
}

uint8_t sl_crc8_humidity(const uint8_t *bytes, size_t count) {
  uint8_t crc = 0xFF;
  for (size_t i = 0; i < count; i++) {
    crc = shifted_high_bit_first((uint8_t)(crc ^ bytes[i]));
  }
  return crc;
}

uint8_t sl_sum8(const uint8_t *bytes, size_t count) {
  uint8_t sum = 0;
  for (size_t i = 0; i < count; i++) {
    sum = (uint8_t)(sum + bytes[i]);
  }
  return sum;
}

bool sl_all_bytes_are(const uint8_t *bytes, size_t count, uint8_t value) {
  for (size_t i = 0; i < count; i++) {
    if (bytes[i] != value) {
      return false;
    }
  }
  return true;
}
