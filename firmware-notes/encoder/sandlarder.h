/* Everything that a probe's program needs, in one line. */
#ifndef SANDLARDER_H
#define SANDLARDER_H

#include "back_off.h"
#include "checksum.h"
#include "clock.h"
#include "pack.h"
#include "queue.h"
#include "result.h"
#include "sensors.h"
#include "topic.h"

#endif
