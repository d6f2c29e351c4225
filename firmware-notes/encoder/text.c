#include "text.h"

enum { MOST_DIGITS = 10 };

static void end_text(struct sl_text *text) {
  if (text->size > 0) {
    text->buffer[text->length] = '\0';
  }
}

struct sl_text sl_text_begin(char *buffer, size_t size) {
  struct sl_text text = {buffer, size, 0, size == 0};
  end_text(&text);
  return text;
}

static void add_character(struct sl_text *text, char character) {
  if (text->full || text->length + 1 >= text->size) {
    text->full = true;
    return;
  }
  text->buffer[text->length] = character;
  text->length++;
  end_text(text);
}

void sl_text_add(struct sl_text *text, const char *added) {
  for (; *added != '\0'; added++) {
    add_character(text, *added);
  }
}

void sl_text_add_whole(struct sl_text *text, uint32_t number) {
  char digits[MOST_DIGITS];
  int count = 0;
  do {
    digits[count] = (char)('0' + number % 10u);
    number /= 10u;
    count++;
  } while (number > 0);
  while (count > 0) {
    count--;
    add_character(text, digits[count]);
  }
}

static void add_fraction(struct sl_text *text, uint32_t milli) {
  add_character(text, '.');
  for (uint32_t place = 100; milli > 0; place /= 10u) {
    add_character(text, (char)('0' + milli / place));
    milli %= place;
  }
}

void sl_text_add_milli(struct sl_text *text, int32_t milli) {
  uint32_t size = milli < 0 ? 0u - (uint32_t)milli : (uint32_t)milli;
  if (milli < 0) {
    add_character(text, '-');
  }
  sl_text_add_whole(text, size / 1000u);
  if (size % 1000u > 0) {
    add_fraction(text, size % 1000u);
  }
}

void sl_text_cut(struct sl_text *text, size_t length) {
  text->length = length;
  text->full = text->size == 0;
  end_text(text);
}
