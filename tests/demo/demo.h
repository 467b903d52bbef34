/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The demo survey: two invented days on an invented aircraft, recorded through the
 * same interfaces as a real one, with a fixed clock, fixed ids and fixed random
 * numbers, so that the file in data/demo can be made again to the byte.
 */
#pragma once

#include "library/library.h"

#define DEMO_PERSON_FIRST "p-tveit"
#define DEMO_PERSON_SECOND "p-marchetti"
#define DEMO_MILLIOHMMETER "i-lm-11"
#define DEMO_MEGOHMMETER "i-lm-40"
#define DEMO_LEADS "i-lm-l3"
#define DEMO_TWINS 26

/** demo_write: makes the survey at @path, which must not exist. */
gboolean demo_write (const char *path, GError **error);

/* What the survey adopts; each (transfer full), GPtrArray of objects with a free function. */
GPtrArray *demo_people (void);
GPtrArray *demo_instruments (void);
BondHouse *demo_house (void);
/** demo_earlier: what the last survey of the same aircraft found, six years before. */
BondEarlier *demo_earlier (const BondAirframe *airframe, GPtrArray *limit_sets);
/** demo_typical: a healthy joint's resistance in nΩ under @bounds, given a standard normal @z. */
BondOhm demo_typical (const BondBounds *bounds, double z);
