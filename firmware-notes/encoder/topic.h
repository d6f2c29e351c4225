/* The topics that a probe publishes on. */
#ifndef SL_TOPIC_H
#define SL_TOPIC_H

#include <stddef.h>

#include "result.h"

enum sl_topic_kind {
  /* SenML packs: QoS 1, not retained. */
  SL_READINGS,
  /* "online", and as the will "offline": QoS 1, retained. */
  SL_STATUS
};

/* Enough for every topic, with its zero byte. */
enum { SL_TOPIC_bytes = 96 };

/*
 * Writes sandlarder/v1/{site}/probes/{probe}/readings, or .../status.
 *
 * buffer        size bytes; ends in a zero byte whenever size is above 0
 * site, probe   1 to 32 of a-z, 0-9 and "-", beginning with a letter or a digit; each ends in a zero byte
 *
 * SL_OK, SL_BAD_ID, or SL_TOO_SMALL (SL_TOPIC_bytes always suffice). Unless SL_OK the buffer holds an empty text.
 */
enum sl_result sl_topic_write(char *buffer, size_t size, const char *site, const char *probe, enum sl_topic_kind kind);

#endif
