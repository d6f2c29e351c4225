#include "topic.h"

#include "text.h"

enum { LONGEST_ID = 32 };

static bool is_letter_or_digit(char character) {
  return (character >= 'a' && character <= 'z') || (character >= '0' && character <= '9');
}

static bool is_id(const char *id) {
  size_t length = 0;
  if (!is_letter_or_digit(id[0])) {
    return false;
  }
  while (length < LONGEST_ID && (is_letter_or_digit(id[length]) || id[length] == '-')) {
    length++;
  }
  return id[length] == '\0';
}

enum sl_result sl_topic_write(char *buffer, size_t size, const char *site, const char *probe, enum sl_topic_kind kind) {
  struct sl_text text = sl_text_begin(buffer, size);
  if (!is_id(site) || !is_id(probe)) {
    return SL_BAD_ID;
  }
  sl_text_add(&text, "sandlarder/v1/");
  sl_text_add(&text, site);
  sl_text_add(&text, "/probes/");
  sl_text_add(&text, probe);
  sl_text_add(&text, kind == SL_STATUS ? "/status" : "/readings");
  if (!text.full) {
    return SL_OK;
  }
  sl_text_cut(&text, 0);
  return SL_TOO_SMALL;
}
