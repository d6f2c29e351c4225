/* What every function of the encoder answers. 0 and above: done. Below 0: not done, and why. */
#ifndef SL_RESULT_H
#define SL_RESULT_H

enum sl_result {
  /* Done. */
  SL_OK = 0,
  /* Done; the queue was full and threw one older reading away for it. */
  SL_THINNED = 1,
  /* Done; the clock was moved by more than it may wander. */
  SL_CLOCK_MOVED = 2,

  /* Every byte is 0x00: the data line is held low, by a short or by water. */
  SL_ALL_ZERO = -1,
  /* Every byte is 0xFF: nobody answers, the line is open or the pull-up alone holds it high. */
  SL_ALL_ONE = -2,
  /* The checksum does not fit: read again; if it stays so, the cable is too long or too noisy. */
  SL_BAD_CHECKSUM = -3,
  /* The checksum fits, but this is no frame of this class of sensor. */
  SL_BAD_FRAME = -4,
  /* The value that the sensor holds after power came on: it has not measured since. The value is given all the same. */
  SL_POWER_ON = -5,
  /* The value by which common drivers say that no sensor answered. */
  SL_DISCONNECTED = -6,
  /* A number outside the range that its function names. */
  SL_OUT_OF_RANGE = -7,
  /* A reading without any value. */
  SL_NO_VALUE = -8,
  /* Nothing waits. */
  SL_EMPTY = -9,
  /* A time that runs backwards, or a clock that cannot be right. */
  SL_BAD_TIME = -10,
  /* The caller's buffer has no room. Nothing was written past its end. */
  SL_TOO_SMALL = -11,
  /* An id that is not 1 to 32 of a-z, 0-9 and "-", beginning with a letter or a digit. */
  SL_BAD_ID = -12
};

#endif
