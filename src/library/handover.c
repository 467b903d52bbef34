/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The sheet and its plain text.  It says only what the record knows: where nothing
 * was recorded (a meter check, a count) it says that, and not that all is well.
 */
#include "library/handover.h"
#include "library/permits.h"
#include <glib/gi18n-lib.h>
#include <string.h>

/* Points of a zone named one by one; beyond that they are counted. */
#define NAMED_MAX 12

/* One zone while the points go by, in walking order. */
typedef struct
{
  const char *zone;
  int points, done;
  GString *open;
  int n_open;
} ZoneCount;

static void
add_line (GString *text, const char *line)
{
  g_string_append_printf (text, "%s%s", text->len > 0 ? "\n" : "", line);
}

static gboolean
is_in_scope (BondState state)
{
  return state != BOND_STATE_NOT_FITTED && state != BOND_STATE_NOT_APPLICABLE;
}

/* What neither a plain reading nor nothing at all settles. */
static gboolean
is_stopped (BondState state)
{
  return state == BOND_STATE_FAIL || state == BOND_STATE_REMEASURE || state == BOND_STATE_SUSPECT
         || state == BOND_STATE_IN_DOUBT || state == BOND_STATE_NOT_ACCESSIBLE;
}

/* "521-J01" under a line that begins with the zone needs no zone. */
static const char *
short_number (BondPoint *point)
{
  const char *number = bond_point_get_number (point);
  const char *zone = bond_point_get_spec (point)->zone;
  gsize length = strlen (zone);

  return strncmp (number, zone, length) == 0 && number[length] == '-' ? number + length + 1 : number;
}

/* A zone whose clips were not counted out is never told as finished. */
static char *
done_words (BondHandoverSheet *sheet, BondSurvey *survey, const ZoneCount *zone)
{
  const BondEntry *permit = bond_permit_open_in (survey, zone->zone, sheet->at);
  g_autofree char *name = permit != NULL ? bond_permit_name (&permit->permit) : NULL;

  if (zone->done < zone->points)
    return g_strdup_printf (_ ("%s: %d of %d"), zone->zone, zone->done, zone->points);
  if (permit == NULL)
    return g_strdup_printf (_ ("%s: all %d"), zone->zone, zone->points);
  return g_strdup_printf (_ ("%s: all %d, but NOT CLOSED: %s is open"), zone->zone, zone->points, name);
}

static void
end_zone (BondHandoverSheet *sheet, BondSurvey *survey, ZoneCount *zone, GString *done, GString *to_do)
{
  g_autofree char *done_line = NULL;
  g_autofree char *open_line = NULL;

  if (zone->open == NULL)
    return;
  if (zone->done > 0)
    {
      done_line = done_words (sheet, survey, zone);
      add_line (done, done_line);
    }
  if (zone->n_open > NAMED_MAX)
    g_string_append_printf (zone->open, _ (" and %d more"), zone->n_open - NAMED_MAX);
  if (zone->n_open > 0)
    {
      open_line = g_strdup_printf ("%s: %s", zone->zone, zone->open->str);
      add_line (to_do, open_line);
    }
  sheet->points_done += zone->done;
  sheet->points_to_do += zone->n_open;
  g_string_free (zone->open, TRUE);
  memset (zone, 0, sizeof *zone);
}

static void
take_point (BondPoint *point, ZoneCount *zone, GString *stopped)
{
  BondState state = bond_point_get_state (point);
  const char *defect = bond_point_get_defect (point);
  g_autofree char *line = NULL;

  if (!is_in_scope (state))
    return;
  zone->points++;
  if (!bond_state_is_open (state))
    {
      zone->done++;
      return;
    }
  if (zone->n_open++ < NAMED_MAX)
    g_string_append_printf (zone->open, "%s%s", zone->open->len > 0 ? " " : "", short_number (point));
  if (!is_stopped (state))
    return;
  line = defect != NULL ? g_strdup_printf (_ ("%s: %s, defect card %s"), bond_point_get_number (point),
                                           bond_state_name (state), defect)
                        : g_strdup_printf ("%s: %s", bond_point_get_number (point), bond_state_name (state));
  add_line (stopped, line);
}

static void
note_panel (GPtrArray *panels, BondPoint *point)
{
  const char *panel = bond_point_get_spec (point)->panel;
  const BondPlaceResult *worst = bond_point_get_worst (point);

  if (panel == NULL || worst == NULL || worst->history->len == 0)
    return;
  if (!g_ptr_array_find_with_equal_func (panels, panel, g_str_equal, NULL))
    g_ptr_array_add (panels, (gpointer)panel);
}

static void
fill_points (BondHandoverSheet *sheet, BondSurvey *survey)
{
  GString *done = g_string_new (NULL), *to_do = g_string_new (NULL), *stopped = g_string_new (NULL);
  GString *panel_words = g_string_new (NULL);
  g_autoptr (GPtrArray) panels = g_ptr_array_new ();
  ZoneCount zone = { 0 };
  guint n = g_list_model_get_n_items (G_LIST_MODEL (survey));

  for (guint i = 0; i < n; i++)
    {
      g_autoptr (BondPoint) point = g_list_model_get_item (G_LIST_MODEL (survey), i);
      const char *number = bond_point_get_spec (point)->zone;

      if (g_strcmp0 (number, zone.zone) != 0)
        end_zone (sheet, survey, &zone, done, to_do);
      if (zone.open == NULL)
        zone.open = g_string_new (NULL);
      zone.zone = number;
      take_point (point, &zone, stopped);
      note_panel (panels, point);
    }
  end_zone (sheet, survey, &zone, done, to_do);
  for (guint i = 0; i < panels->len; i++)
    g_string_append_printf (panel_words, "%s%s", i > 0 ? ", " : "", (const char *)g_ptr_array_index (panels, i));
  sheet->done = g_string_free (done, FALSE);
  sheet->to_do = g_string_free (to_do, FALSE);
  sheet->stopped = g_string_free (stopped, FALSE);
  sheet->panels = g_string_free (panel_words, FALSE);
}

static void
fill_bare (BondHandoverSheet *sheet, BondSurvey *survey, const char *now)
{
  GString *text = g_string_new (NULL);

  sheet->joints = bond_bare_joints (survey, now);
  for (guint i = 0; i < sheet->joints->len; i++)
    {
      g_autofree char *line = bond_bare_words (g_ptr_array_index (sheet->joints, i), now);

      add_line (text, line);
    }
  sheet->bare = g_string_free (text, FALSE);
}

static void
fill_permits (BondHandoverSheet *sheet, BondSurvey *survey, const char *now)
{
  GPtrArray *permits = bond_survey_get_permits (survey);
  GString *text = g_string_new (NULL);

  for (guint i = 0; permits != NULL && i < permits->len; i++)
    {
      const BondPermit *permit = &((BondEntry *)g_ptr_array_index (permits, i))->permit;
      g_autofree char *name = bond_permit_name (permit);
      int left = bond_minutes_between (now, permit->valid_until);
      g_autofree char *until = bond_words_minutes (ABS (left));
      g_autofree char *time = permit->valid_until == NULL ? g_strdup ("")
                              : left < 0                  ? g_strdup_printf (_ (", over for %s"), until)
                                                          : g_strdup_printf (_ (", %s left"), until);
      g_autofree char *count
          = permit->counted_in < 0
                ? g_strdup (_ ("clips and leads were not counted in"))
                : g_strdup_printf (
                    ngettext ("%d clip or lead is inside", "%d clips and leads are inside", (gulong)permit->counted_in),
                    permit->counted_in);
      g_autofree char *line = g_strdup_printf (_ ("%s, zones %s: NOT CLOSED%s; %s"), name,
                                               permit->zones != NULL ? permit->zones : "–", time, count);

      add_line (text, line);
    }
  sheet->permits = g_string_free (text, FALSE);
}

/* A count that did not come out stays on the sheet until the survey ends, with what was said of it. */
static void
fill_counts (BondHandoverSheet *sheet, BondSurvey *survey)
{
  GPtrArray *entries = bond_survey_get_entries (survey);
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < entries->len; i++)
    {
      BondEntry *entry = g_ptr_array_index (entries, i);
      const BondEntry *opened = entry->kind == BOND_ENTRY_CLOSE_PERMIT && !bond_survey_is_taken_back (survey, entry)
                                    ? bond_survey_find_entry (survey, entry->ref)
                                    : NULL;
      g_autofree char *name = NULL;
      g_autofree char *line = NULL;

      if (opened == NULL || opened->permit.counted_in < 0
          || opened->permit.counted_in == entry->close_permit.counted_out)
        continue;
      name = bond_permit_name (&opened->permit);
      line = g_strdup_printf (_ ("%s: %d in, %d out. %s"), name, opened->permit.counted_in,
                              entry->close_permit.counted_out, entry->reason != NULL ? entry->reason : "");
      add_line (text, line);
    }
  sheet->counts = g_string_free (text, FALSE);
}

static int
readings_with (BondSurvey *survey, const char *instrument)
{
  GPtrArray *entries = bond_survey_get_entries (survey);
  int n = 0;

  for (guint i = 0; i < entries->len; i++)
    {
      const BondEntry *entry = g_ptr_array_index (entries, i);

      n += entry->kind == BOND_ENTRY_READING && g_strcmp0 (entry->reading.instrument, instrument) == 0;
    }
  return n;
}

static void
fill_meter (BondHandoverSheet *sheet, BondSurvey *survey)
{
  GPtrArray *instruments = bond_survey_get_instruments (survey);
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < instruments->len; i++)
    {
      const BondInstrument *meter = g_ptr_array_index (instruments, i);
      int n = readings_with (survey, meter->id);
      g_autofree char *line = NULL;

      if (n == 0)
        continue;
      line = g_strdup_printf (ngettext ("%s, due %s, %d reading; no meter check recorded",
                                        "%s, due %s, %d readings; no meter check recorded", (gulong)n),
                              meter->name, meter->due != NULL ? meter->due : _ ("not stated"), n);
      add_line (text, line);
    }
  sheet->meter = g_string_free (text, FALSE);
}

BondHandoverSheet *
bond_handover_sheet_new (BondSurvey *survey, const char *now)
{
  BondHandoverSheet *sheet;
  const BondCreate *header;

  g_return_val_if_fail (BOND_IS_SURVEY (survey) && now != NULL, NULL);
  sheet = g_new0 (BondHandoverSheet, 1);
  header = bond_survey_get_header (survey);
  sheet->at = g_strdup (now);
  sheet->aircraft = g_strdup_printf (
      "%s%s%s%s", header != NULL && header->registration != NULL ? header->registration : "",
      header != NULL && header->title != NULL ? ", " : "", header != NULL && header->title != NULL ? header->title : "",
      header != NULL && header->invented ? _ (" (invented example data)") : "");
  fill_points (sheet, survey);
  fill_bare (sheet, survey, now);
  fill_permits (sheet, survey, now);
  fill_counts (sheet, survey);
  fill_meter (sheet, survey);
  return sheet;
}

void
bond_handover_sheet_free (BondHandoverSheet *sheet)
{
  if (sheet == NULL)
    return;
  g_free (sheet->at);
  g_free (sheet->aircraft);
  g_free (sheet->done);
  g_free (sheet->to_do);
  g_free (sheet->stopped);
  g_free (sheet->bare);
  g_free (sheet->panels);
  g_free (sheet->permits);
  g_free (sheet->counts);
  g_free (sheet->meter);
  g_ptr_array_unref (sheet->joints);
  g_free (sheet);
}

static void
add_section (GString *text, const char *heading, const char *lines)
{
  g_auto (GStrv) parts = g_strsplit (lines != NULL && *lines != '\0' ? lines : _ ("nothing recorded"), "\n", -1);

  g_string_append_printf (text, "\n%s\n", heading);
  for (int i = 0; parts[i] != NULL; i++)
    g_string_append_printf (text, "  %s\n", parts[i]);
}

char *
bond_handover_text (const BondHandoverSheet *sheet, const char *from, const char *to, const char *panels,
                    const char *notes)
{
  GString *text;

  g_return_val_if_fail (sheet != NULL, NULL);
  text = g_string_new (NULL);
  g_string_append_printf (text, _ ("Hand over, %s\n%s\n"), sheet->aircraft, sheet->at);
  g_string_append_printf (text, _ ("From %s to %s\n"), from != NULL ? from : "–", to != NULL ? to : "–");
  g_string_append_printf (text, _ ("%d points done, %d to do\n"), sheet->points_done, sheet->points_to_do);
  add_section (text, _ ("Done"), sheet->done);
  add_section (text, _ ("To do"), sheet->to_do);
  add_section (text, _ ("Needs a decision"), sheet->stopped);
  add_section (text, _ ("Joints open and bare"), sheet->bare);
  add_section (text, _ ("Panels open"), panels);
  add_section (text, _ ("Permits not closed"), sheet->permits);
  if (*sheet->counts != '\0')
    add_section (text, _ ("Counts that differ"), sheet->counts);
  add_section (text, _ ("Meters"), sheet->meter);
  add_section (text, _ ("Notes"), notes);
  return g_string_free (text, FALSE);
}

/* "541-J02 2026-11-24T10:15:00+01:00; …" as the record keeps it. */
static char *
bare_for_record (const BondHandoverSheet *sheet)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < sheet->joints->len; i++)
    {
      const BondBareJoint *joint = g_ptr_array_index (sheet->joints, i);

      g_string_append_printf (text, "%s%s %s", i > 0 ? "; " : "", bond_point_get_number (joint->point), joint->since);
    }
  return g_string_free (text, text->len == 0);
}

static char *
join_lines (const char *first, const char *second, const char *third)
{
  const char *const parts[] = { first, second, third };
  GString *text = g_string_new (NULL);

  for (gsize i = 0; i < G_N_ELEMENTS (parts); i++)
    if (*parts[i] != '\0')
      add_line (text, parts[i]);
  return g_string_free (text, FALSE);
}

static char *
or_null (const char *text)
{
  return text != NULL && *text != '\0' ? g_strdup (text) : NULL;
}

BondEntry *
bond_handover_entry (const BondHandoverSheet *sheet, const char *to, const char *panels, const char *notes)
{
  BondEntry *entry;
  g_autofree char *to_do = NULL;

  g_return_val_if_fail (sheet != NULL && to != NULL, NULL);
  entry = bond_entry_new (BOND_ENTRY_HANDOVER);
  to_do = join_lines (sheet->to_do, sheet->stopped, sheet->permits);
  entry->handover.to = g_strdup (to);
  entry->handover.done = or_null (sheet->done);
  entry->handover.to_do = or_null (to_do);
  entry->handover.bare = bare_for_record (sheet);
  entry->handover.panels = or_null (panels);
  entry->handover.meter = or_null (sheet->meter);
  entry->handover.notes = or_null (notes);
  entry->handover.points_done = sheet->points_done;
  entry->handover.points_to_do = sheet->points_to_do;
  return entry;
}
