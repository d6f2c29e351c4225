/* Checksums of sensor frames. No tables: eight steps a byte are quick enough for frames of nine bytes. */
#ifndef SL_CHECKSUM_H
#define SL_CHECKSUM_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/*
 * CRC-8 of the one-wire bus: polynomial x^8 + x^5 + x^4 + 1, lowest bit first (0x8C), start 0x00.
 * Source: data sheet of the DS18B20, "CRC generation".
 * Trap: of zeros alone it is zero, so a bus that is held low passes. Look for that first.
 *
 * bytes   count bytes
 * count   0 or more; of no bytes it is 0x00
 */
uint8_t sl_crc8_one_wire(const uint8_t *bytes, size_t count);

/*
 * CRC-8 of I2C humidity sensors: polynomial x^8 + x^5 + x^4 + 1, highest bit first (0x31), start 0xFF, nothing
 * added at the end.
 * Source: data sheet of the SHT3x-DIS, "Checksum calculation".
 *
 * bytes   count bytes
 * count   0 or more; of no bytes it is 0xFF
 */
uint8_t sl_crc8_humidity(const uint8_t *bytes, size_t count);

/*
 * Sum of bytes, its lowest eight bits: the check of single-wire humidity sensors.
 * Source: data sheet of the AM2302.
 * Trap: of zeros alone it is zero.
 */
uint8_t sl_sum8(const uint8_t *bytes, size_t count);

/* Whether every one of count bytes is value; true of no bytes. */
bool sl_all_bytes_are(const uint8_t *bytes, size_t count, uint8_t value);

#endif
