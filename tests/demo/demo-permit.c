/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The fuel tanks of the demo: a permit is recorded before anybody measures in them
 * and closed, clips and leads counted out, at the end of the day.  All invented.
 */
#include "demo-walk.h"

#define TANK_ZONES "521 522 621 622"
#define CLIPS_AND_LEADS 6

static char *
moment (DemoWalk *walk, int minutes)
{
  g_autoptr (GDateTime) time = g_date_time_add_minutes (walk->clock, minutes);

  return g_date_time_format (time, "%Y-%m-%dT%H:%M:%S%:z");
}

void
demo_permit_open (DemoWalk *walk, const char *number)
{
  BondEntry *entry = bond_entry_new (BOND_ENTRY_PERMIT);

  entry->permit = (BondPermit){ .hazard = BOND_HAZARD_FUEL_VAPOUR,
                                .number = g_strdup (number),
                                .zones = g_strdup (TANK_ZONES),
                                .tester = g_strdup ("Bram Hollis (invented)"),
                                .gas_at = moment (walk, -20),
                                .valid_until = moment (walk, 10 * 60),
                                .vapour_permille = 20,
                                .oxygen_permille = 208,
                                .counted_in = CLIPS_AND_LEADS };
  demo_walk_record (walk, entry);
  demo_walk_wait (walk, 60);
}

void
demo_permit_close (DemoWalk *walk)
{
  GPtrArray *open = bond_survey_get_permits (walk->survey);

  while (walk->error == NULL && open->len > 0)
    {
      BondEntry *entry = bond_entry_new (BOND_ENTRY_CLOSE_PERMIT);

      entry->ref = g_strdup (((BondEntry *)open->pdata[0])->id);
      entry->close_permit.counted_out = CLIPS_AND_LEADS;
      demo_walk_wait (walk, 240);
      demo_walk_record (walk, entry);
    }
}
