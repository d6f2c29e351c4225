#include "back_off.h"

void sl_back_off_begin(struct sl_back_off *back_off, uint32_t first_s, uint32_t longest_s) {
  back_off->first_s = first_s;
  back_off->longest_s = longest_s;
  back_off->next_s = first_s;
}

uint32_t sl_back_off_next_s(struct sl_back_off *back_off, uint32_t random) {
  uint32_t full_s = back_off->next_s;
  uint32_t shortened_by_s = random % (full_s / 2u + 1u);
  back_off->next_s = full_s <= back_off->longest_s / 2u ? full_s * 2u : back_off->longest_s;
  return full_s - shortened_by_s;
}

void sl_back_off_reset(struct sl_back_off *back_off) {
  back_off->next_s = back_off->first_s;
}
