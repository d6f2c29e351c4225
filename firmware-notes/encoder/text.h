/* Text in a buffer of the caller's: nothing is ever written past its end. */
#ifndef SL_TEXT_H
#define SL_TEXT_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

struct sl_text {
  char *buffer;
  /* Of the buffer, with room for the zero byte at the end. */
  size_t size;
  /* Characters written, without the zero byte. */
  size_t length;
  /* Something did not fit and was left out. */
  bool full;
};

/* Begins a text; a buffer of size 0 is full at once. */
struct sl_text sl_text_begin(char *buffer, size_t size);

/* Adds a text that ends in a zero byte. */
void sl_text_add(struct sl_text *text, const char *added);

/* Adds a whole number in decimal. */
void sl_text_add_whole(struct sl_text *text, uint32_t number);

/* Adds thousandths as a decimal number without idle zeros: -500 is "-0.5", 20000 is "20". Any number. */
void sl_text_add_milli(struct sl_text *text, int32_t milli);

/* Goes back to a length that it had before, and is not full any more. */
void sl_text_cut(struct sl_text *text, size_t length);

#endif
