/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Entries that fit the form and the chain and still contradict the survey they
 * stand in, or themselves.  Nothing that this program records does, so such a file
 * was put together elsewhere.  What a reading means, and references between entries,
 * are left to core.
 */
#include "store/sense.h"

#include <glib/gi18n-lib.h>

typedef struct
{
  BondSurvey *survey;
  const char *path;
  GPtrArray *problems; /* nullable */
  BondSense sense;
  GHashTable *people, *instruments; /* ids ever adopted, also later or taken back */
  GHashTable *points;               /* ids ever placed: a point that was undone still has its history */
  GHashTable *specs;                /* BondPointSpec → BondRecordEntry */
} Look;

static void G_GNUC_PRINTF (4, 5)
    note (Look *look, const BondRecordEntry *where, gboolean breaks, const char *format, ...)
{
  g_autofree char *file = g_strconcat (look->path, where != NULL && where->in_journal ? ".journal" : "", NULL);
  g_autofree char *text = NULL;
  va_list args;

  va_start (args, format);
  text = g_strdup_vprintf (format, args);
  va_end (args);
  if (look->problems != NULL)
    g_ptr_array_add (look->problems, bond_problem_new (file, where != NULL ? where->line : 0,
                                                       breaks ? _ ("%s. The survey opens read-only; compare it with "
                                                                   "a backup.")
                                                              : "%s",
                                                       text));
  if (breaks && look->sense.broken == NULL)
    look->sense.broken = g_steal_pointer (&text);
}

static void
learn (Look *look, const BondRecordEntry *one)
{
  BondEntry *entry = one->entry;

  if (entry->kind == BOND_ENTRY_POINT && entry->point != NULL)
    g_hash_table_add (look->points, entry->point);
  if (entry->kind == BOND_ENTRY_POINT)
    g_hash_table_insert (look->specs, entry->spec, (gpointer)one);
  if (entry->kind == BOND_ENTRY_ADOPT && entry->adopt.what == BOND_ADOPT_PERSON)
    g_hash_table_add (look->people, ((BondPerson *)entry->adopt.object)->id);
  if (entry->kind == BOND_ENTRY_ADOPT && entry->adopt.what == BOND_ADOPT_INSTRUMENT)
    g_hash_table_add (look->instruments, ((BondInstrument *)entry->adopt.object)->id);
}

static void
check_people (Look *look, const BondRecordEntry *one)
{
  const char *const ids[] = { one->entry->by, one->entry->entered_by, one->entry->under };

  /* Who makes a survey stands in it only after its first entries, and a crash may come between. */
  if (one->entry->kind == BOND_ENTRY_CREATE || one->entry->kind == BOND_ENTRY_ADOPT)
    return;
  for (guint i = 0; i < G_N_ELEMENTS (ids); i++)
    if (ids[i] != NULL && !g_hash_table_contains (look->people, ids[i]))
      note (look, one, TRUE, _ ("entry %s names person %s, who is not in the survey"), one->entry->id, ids[i]);
}

static void
check_places (Look *look, const BondRecordEntry *one)
{
  const BondEntry *entry = one->entry;
  const char *const ids[] = { entry->point, entry->kind == BOND_ENTRY_MOVE ? entry->move.to_point : NULL };

  for (guint i = 0; i < G_N_ELEMENTS (ids); i++)
    if (ids[i] != NULL && !g_hash_table_contains (look->points, ids[i]))
      note (look, one, TRUE, _ ("entry %s is at point %s, which no entry places"), entry->id, ids[i]);
}

static gboolean
quantity_equals (const BondQuantity *a, const BondQuantity *b)
{
  return a->nohm == b->nohm && a->rest == b->rest && a->qualifier == b->qualifier;
}

/* The text as it may have been typed: with either mark, and "1,250" answered to be a decimal. */
static gboolean
text_says (const BondReading *reading, gboolean *readable)
{
  static const BondNumberFormat formats[]
      = { { .mark = '.', .other_is_decimal = TRUE }, { .mark = ',', .other_is_decimal = TRUE } };
  BondOhm end = MAX (reading->quantity.nohm, 0); /* a bare ">" or "OL" took it from the range */

  *readable = FALSE;
  for (guint i = 0; i < G_N_ELEMENTS (formats); i++)
    {
      BondReadingText text = { 0 };
      gboolean same;

      if (reading->text == NULL
          || !bond_reading_text_parse (reading->text, reading->unit, &formats[i], end, end, &text, NULL))
        continue;
      *readable = TRUE;
      same = text.n_values == 1 && quantity_equals (&text.value[0].quantity, &reading->quantity)
             && text.value[0].nanovolt == reading->nanovolt && text.value[0].microampere == reading->microampere;
      bond_reading_text_clear (&text);
      if (same)
        return TRUE;
    }
  return FALSE;
}

static gboolean
quotient_says (const BondReading *reading)
{
  BondQuantity quantity = { 0 };

  if (reading->nanovolt == 0 && reading->microampere == 0)
    return TRUE;
  return reading->nanovolt != 0 && reading->microampere != 0
         && bond_ohm_from_quotient (reading->nanovolt, reading->microampere, &quantity, NULL)
         && quantity_equals (&quantity, &reading->quantity);
}

/* The verdict is computed from the whole number; the person saw the text. */
static void
check_figures (Look *look, const BondRecordEntry *one, const BondReading *reading)
{
  gboolean readable = FALSE;
  gboolean typed = reading->via == NULL || g_str_equal (reading->via, "typed");

  if (!quotient_says (reading))
    note (look, one, TRUE, _ ("entry %s has a voltage and a current that do not give its resistance"), one->entry->id);
  else if (!text_says (reading, &readable) && (readable || typed))
    note (look, one, TRUE, _ ("entry %s was typed as “%s” %s, which is not the resistance it stands for"),
          one->entry->id, reading->text != NULL ? reading->text : "", bond_unit_symbol (reading->unit));
}

static void
check_reading (Look *look, const BondRecordEntry *one)
{
  const BondReading *reading = bond_entry_get_reading (one->entry);

  if (reading == NULL)
    return;
  if (reading->instrument != NULL && !g_hash_table_contains (look->instruments, reading->instrument))
    note (look, one, TRUE, _ ("entry %s was taken with instrument %s, which is not in the survey"), one->entry->id,
          reading->instrument);
  check_figures (look, one, reading);
}

/* --- the points as they stand now --- */

static void
check_zone (Look *look, const BondPointSpec *spec)
{
  const BondAirframe *airframe = bond_survey_get_airframe (look->survey);

  if (airframe == NULL || bond_airframe_find_zone (airframe, spec->zone) != NULL)
    return;
  look->sense.zone_missing = TRUE;
  note (look, g_hash_table_lookup (look->specs, spec), FALSE,
        _ ("point %s names zone %s, which airframe %s does not have. It is kept; give the point a zone of the "
           "airframe."),
        spec->number, spec->zone, airframe->id);
}

static void
check_limits (Look *look, BondPoint *point)
{
  const BondPointSpec *spec = bond_point_get_spec (point);
  GPtrArray *rows = bond_point_get_rows (point);

  for (guint i = 0; i < rows->len; i++)
    {
      const BondNamedRow *named = g_ptr_array_index (rows, i);

      if (named->name == NULL || named->row != NULL)
        continue;
      note (look, g_hash_table_lookup (look->specs, spec), FALSE,
            _ ("point %s names limit %s, which no limit set of the survey holds. It stays open; adopt the set that "
               "has it, or give the point another limit."),
            spec->number, named->name);
    }
}

static void
check_points (Look *look)
{
  g_autoptr (GHashTable) numbers = g_hash_table_new (g_str_hash, g_str_equal);
  guint n_points = g_list_model_get_n_items (G_LIST_MODEL (look->survey));

  for (guint i = 0; i < n_points; i++)
    {
      g_autoptr (BondPoint) point = g_list_model_get_item (G_LIST_MODEL (look->survey), i);
      const BondPointSpec *spec = bond_point_get_spec (point);

      if (!g_hash_table_add (numbers, spec->number))
        note (look, g_hash_table_lookup (look->specs, spec), TRUE, _ ("there are two points %s"), spec->number);
      check_zone (look, spec);
      check_limits (look, point);
    }
}

BondSense
bond_record_check_sense (const BondRecord *record, BondSurvey *survey, const char *path, GPtrArray *problems)
{
  Look look = { .survey = survey, .path = path, .problems = problems };
  g_autoptr (GHashTable) people = g_hash_table_new (g_str_hash, g_str_equal);
  g_autoptr (GHashTable) instruments = g_hash_table_new (g_str_hash, g_str_equal);
  g_autoptr (GHashTable) points = g_hash_table_new (g_str_hash, g_str_equal);
  g_autoptr (GHashTable) specs = g_hash_table_new (NULL, NULL);

  g_return_val_if_fail (record != NULL && BOND_IS_SURVEY (survey) && path != NULL, look.sense);

  look.people = people;
  look.instruments = instruments;
  look.points = points;
  look.specs = specs;
  for (guint i = 0; i < record->entries->len; i++)
    learn (&look, g_ptr_array_index (record->entries, i));
  for (guint i = 0; i < record->entries->len; i++)
    {
      const BondRecordEntry *one = g_ptr_array_index (record->entries, i);

      check_people (&look, one);
      check_places (&look, one);
      check_reading (&look, one);
    }
  check_points (&look);
  return look.sense;
}
