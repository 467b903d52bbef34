/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Surveys for the report's tests, recorded act by act like real ones.
 */
#include "report-hangar.h"

#include "store/catalog.h"

#include <glib/gstdio.h>

/* Some of the points are in tanks. */
static void
record_permit (Hangar *h)
{
  BondEntry *entry = bond_entry_new (BOND_ENTRY_PERMIT);

  entry->permit = (BondPermit){ .hazard = BOND_HAZARD_FUEL_VAPOUR,
                                .number = g_strdup ("FV-1"),
                                .zones = g_strdup ("520 620"),
                                .tester = g_strdup ("T. Sato"),
                                .gas_at = g_strdup ("2026-11-24T09:30:00+01:00"),
                                .valid_until = g_strdup ("2026-11-25T09:30:00+01:00"),
                                .vapour_permille = 20,
                                .oxygen_permille = 208,
                                .counted_in = 4 };
  hangar_record (h, entry);
}

static void
adopt_airframe (Hangar *h)
{
  g_autoptr (BondCatalog) catalog = bond_catalog_new (NULL, NULL);
  BondAirframe *airframe = bond_catalog_find (catalog, BOND_ADOPT_AIRFRAME, "generic-jet-transport");

  g_assert_nonnull (airframe);
  hangar_record (h, bond_entry_adopt_new (BOND_ADOPT_AIRFRAME, airframe));
  record_permit (h);
}

Hangar *
report_hangar_new (gboolean with_airframe)
{
  Hangar *h = hangar_new_bare ();
  g_autoptr (BondHouse) house = bond_house_new ("house", 1, "Example Maintenance");

  hangar_furnish (h, BOND_RULE_SIMPLE, house);
  if (with_airframe)
    adopt_airframe (h);
  return h;
}

char *
report_hangar_figure (int i)
{
  return g_strdup_printf ("%d.%02d", 1 + i % 100 / 90, 10 + i % 90);
}

static void
add_point (Hangar *h, const BondAirframe *airframe, int i)
{
  const BondPointSpec *like
      = airframe != NULL ? g_ptr_array_index (airframe->points, (guint)i % airframe->points->len) : NULL;
  g_autofree char *number = g_strdup_printf ("%s-J%04d", like != NULL ? like->zone : "521", i + 1);
  g_autofree char *figure = report_hangar_figure (i);
  BondEntry *entry = bond_entry_new (BOND_ENTRY_POINT);
  guint j;

  entry->spec = hangar_spec (number, "J2");
  entry->point = g_strdup (entry->spec->id);
  if (like != NULL)
    {
      g_free (entry->spec->zone);
      entry->spec->zone = g_strdup (like->zone);
    }
  for (j = 0; like != NULL && j < like->placements->len; j++)
    {
      const BondPlacement *placement = g_ptr_array_index (like->placements, j);

      bond_point_spec_add_placement (entry->spec, placement->view, placement->x + i / 96 % 7 * 3.0,
                                     placement->y + i / 96 % 5 * 3.0, placement->home, placement->drawn_zone);
    }
  hangar_record (h, entry);
  hangar_read (h, number, figure);
}

void
report_hangar_fill (Hangar *h, int n)
{
  int i;

  for (i = 0; i < n; i++)
    add_point (h, bond_survey_get_airframe (h->survey), i);
}

static void
dispose (Hangar *h, const char *number, BondDispositionKind kind)
{
  BondEntry *entry = hangar_entry (h, BOND_ENTRY_DISPOSITION, number);

  entry->disposition.kind = kind;
  entry->disposition.reference = g_strdup ("DEF-0042");
  entry->disposition.holder = g_strdup ("design office");
  entry->disposition.until = g_strdup ("2027-02-28");
  entry->disposition.first_date = g_strdup ("2026-11-24");
  if (kind == BOND_DISPOSITION_ACCEPTED)
    entry->disposition.bounds.upper = (BondBound){ BOND_RELATION_LE, UOHM (20000), BOND_UNIT_MILLIOHM };
  hangar_record (h, entry);
}

static void
mark_points (Hangar *h)
{
  static const struct
  {
    const char *number;
    BondPointMark mark;
  } marks[] = {
    { "521-J10", BOND_POINT_MARK_NOT_ACCESSIBLE },
    { "521-J11", BOND_POINT_MARK_NOT_FITTED },
    { "521-J12", BOND_POINT_MARK_NOT_APPLICABLE },
    { "521-J13", BOND_POINT_MARK_NOT_IN_SAMPLE },
  };
  guint i;

  for (i = 0; i < G_N_ELEMENTS (marks); i++)
    {
      hangar_point (h, marks[i].number, "J2");
      hangar_mark (h, marks[i].number, marks[i].mark, "panel bonded shut");
    }
}

void
report_hangar_all_states (Hangar *h)
{
  static const char *const readings[][2] = {
    { "521-J02", "7.02" }, { "521-J03", "1.03" }, { "521-J04", "7.04" }, { "521-J05", "7.05" }, { "521-J06", "7.06" },
    { "521-J07", "7.07" }, { "521-J08", "7.08" }, { "521-J09", "7.09" }, { "521-J16", "2.49" }, { "521-J17", "1.17" },
  };
  guint i;

  hangar_point (h, "521-J01", "J2");
  for (i = 0; i < G_N_ELEMENTS (readings); i++)
    {
      hangar_point (h, readings[i][0], "J2");
      hangar_read (h, readings[i][0], readings[i][1]);
    }
  hangar_rework (h, "521-J02", BOND_REWORK_SURFACES_CLEANED);
  hangar_rework (h, "521-J05", BOND_REWORK_SURFACES_CLEANED | BOND_REWORK_TORQUE_RESTORED);
  hangar_read (h, "521-J05", "0.55");
  hangar_read (h, "521-J06", "1.61");
  hangar_read (h, "521-J06", "1.62");
  dispose (h, "521-J07", BOND_DISPOSITION_ACCEPTED);
  dispose (h, "521-J08", BOND_DISPOSITION_CARRIED_FORWARD);
  dispose (h, "521-J09", BOND_DISPOSITION_DEFERRED);
  hangar_visual (h, "521-J17", BOND_VISUAL_CORROSION, TRUE);
  mark_points (h);
  hangar_point (h, "521-J14", NULL);
  hangar_read (h, "521-J14", "3.14");
  hangar_point (h, "521-J15", "J2P");
  hangar_read (h, "521-J15", "1.15 1.95");
  hangar_point (h, "521-J18", "J2");
  hangar_read (h, "521-J18", "-1.15");
}

GBytes *
report_hangar_pdf (Hangar *h, BondPaper paper, char **path)
{
  BondReportOptions options = { .paper = paper, .printed = PRINTED };
  g_autoptr (GError) error = NULL;
  GBytes *pdf = bond_report_pdf (h->survey, &options, &error);
  int file;

  g_assert_no_error (error);
  g_assert_nonnull (pdf);
  if (path == NULL)
    return pdf;
  file = g_file_open_tmp ("bond-report-XXXXXX.pdf", path, &error);
  g_assert_no_error (error);
  g_close (file, NULL);
  g_file_set_contents (*path, g_bytes_get_data (pdf, NULL), (gssize)g_bytes_get_size (pdf), &error);
  g_assert_no_error (error);
  return pdf;
}

char *
report_hangar_run (const char *const *command)
{
  g_autofree char *program = g_find_program_in_path (command[0]);
  g_autoptr (GError) error = NULL;
  char *output = NULL;
  int status = 0;

  if (program == NULL)
    {
      g_autofree char *why = g_strdup_printf ("%s is not installed", command[0]);

      g_test_skip (why);
      return NULL;
    }
  g_spawn_sync (NULL, (char **)command, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, &output, NULL, &status, &error);
  g_assert_no_error (error);
  g_spawn_check_wait_status (status, &error);
  g_assert_no_error (error);
  return output;
}
