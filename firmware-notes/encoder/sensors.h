/*
 * Frames of sensors, as the bus gave them, to values in thousandths of a unit.
 *
 * Temperature is in thousandths of a degree Celsius (mC), humidity in thousandths of a per cent of relative humidity
 * (mRH). All arithmetic is in whole numbers; results are rounded to the nearest thousandth, halves away from zero.
 *
 * A value is written only with SL_OK and SL_POWER_ON. With every other answer what the pointers show is left as it
 * was. Never send an old value for it: what to send instead is named below.
 */
#ifndef SL_SENSORS_H
#define SL_SENSORS_H

#include <stdint.h>

#include "result.h"

enum {
  SL_ROM_bytes = 8,
  SL_SCRATCHPAD_bytes = 9,
  SL_I2C_HUMIDITY_bytes = 6,
  SL_SINGLE_WIRE_bytes = 5
};

/*
 * What to send for a sensor that gave no value, also when it was read once more: -127 degrees, and 0 %RH. The service
 * keeps these, believes neither, and tells of a broken probe within some hours. Of a value that is merely left out it
 * tells nothing as long as the probe sends another.
 */
enum { SL_NO_TEMPERATURE_mC = -127000, SL_NO_HUMIDITY_mRH = 0 };

/* First byte of the address of the one-wire thermometers that sl_one_wire_temperature reads. */
enum { SL_FAMILY_THERMOMETER = 0x28 };

/*
 * Whether an address read from a one-wire bus is one.
 *
 * rom   the eight bytes in the order in which they came: family, six bytes of serial number, CRC
 *
 * SL_OK, SL_ALL_ZERO, SL_ALL_ONE or SL_BAD_CHECKSUM.
 */
enum sl_result sl_one_wire_address(const uint8_t rom[SL_ROM_bytes]);

/*
 * One-wire digital thermometer of family 0x28: its scratchpad to a temperature.
 * Source: data sheet of the DS18B20 (raw is in 1/16 degree, two's complement; bits below the resolution that is set
 * are not defined and are cleared; configuration byte 0 R1 R0 1 1 1 1 1; range -55 to 125).
 *
 * scratchpad       the nine bytes in the order in which they came
 * temperature_mC   -55000 to 125000; only written with SL_OK and SL_POWER_ON
 *
 * SL_OK
 * SL_ALL_ZERO, SL_ALL_ONE   shorted or open bus
 * SL_BAD_CHECKSUM           damaged on its way
 * SL_BAD_FRAME              a sensor of another family: its configuration byte is another
 * SL_POWER_ON               exactly 85 degrees, 85000: it has not converted since it had power. Convert and read once
 *                           more. No sand is at 85 degrees: if it stays so, its supply fails while it converts.
 * SL_OUT_OF_RANGE           beyond what the sensor can measure
 */
enum sl_result sl_one_wire_temperature(const uint8_t scratchpad[SL_SCRATCHPAD_bytes], int32_t *temperature_mC);

/*
 * I2C humidity sensor that sends two words of 16 bits, each with its CRC: temperature first, then humidity.
 * Source: data sheet of the SHT3x-DIS (T = -45 + 175 S / 65535, RH = 100 S / 65535; range -40 to 125 degrees).
 * Sensors with the same frame and other formulas exist: look into the data sheet before you use this for one.
 *
 * frame            the six bytes in the order in which they came
 * temperature_mC   -40000 to 125000
 * humidity_mRH     0 to 100000
 *
 * SL_OK, SL_ALL_ZERO, SL_ALL_ONE, SL_BAD_CHECKSUM, or SL_OUT_OF_RANGE for a word at the end of its scale.
 */
enum sl_result sl_i2c_humidity(const uint8_t frame[SL_I2C_HUMIDITY_bytes], int32_t *temperature_mC,
                               int32_t *humidity_mRH);

/*
 * Single-wire humidity sensor that sends 40 bits: humidity and temperature in tenths, and the sum of these bytes.
 * Source: data sheet of the AM2302 (the highest bit of the temperature is its sign, not two's complement; -40 to 80
 * degrees; at least 2 s between reads).
 *
 * frame            the five bytes in the order in which they came
 * temperature_mC   -40000 to 80000
 * humidity_mRH     0 to 100000
 *
 * SL_OK, SL_ALL_ZERO (whose sum fits), SL_ALL_ONE, SL_BAD_CHECKSUM, SL_OUT_OF_RANGE.
 */
enum sl_result sl_single_wire_humidity(const uint8_t frame[SL_SINGLE_WIRE_bytes], int32_t *temperature_mC,
                                       int32_t *humidity_mRH);

/*
 * Judges a temperature that a ready-made driver of a one-wire thermometer gave, where the frame is out of reach.
 *
 * temperature_mC   any number
 *
 * SL_OK, SL_POWER_ON (85000), SL_DISCONNECTED (-127000), or SL_OUT_OF_RANGE outside -55000 to 125000.
 */
enum sl_result sl_driver_temperature(int32_t temperature_mC);

#endif
