/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The scenario: a six-year bonding survey of the generic twin jet ZZ-LMQ.  On the
 * first day the inspector walks the template's points, places their twins on the
 * other side and samples a panel; on the second another inspector measures again
 * what was reworked over night.  Everything in it is invented.
 */
#include "demo-walk.h"

#define FIRST_DAY "2026-11-23T07:40:00+01:00"
#define SECOND_DAY "2026-11-24T13:10:00+01:00"
#define ID_SEED G_GUINT64_CONSTANT (0x4c4d510042)
#define RANDOM_SEED 417
#define PANEL_NUMBER "522-F02"
#define PANEL_BOLTS 24
#define PANEL_EVERY 3
#define BAD_BOLT "bolt 13"

/* --- what happened at single points; every other point just got its reading --- */

typedef enum
{
  DEED_TYPE,         /* @text: as typed; @words: range, or NULL */
  DEED_CORRECT_SLIP, /* @text: the right figure; @words: reason */
  DEED_VOID_FAULT,   /* @words: reason */
  DEED_MOVE,         /* @text: number of the point it belongs to; @words: reason */
  DEED_UNDO,
  DEED_REWORK,      /* @text: what was done; @words: card */
  DEED_OPENED,      /* @words: card */
  DEED_STRANDS,     /* @words: what was seen */
  DEED_MARK,        /* @text: the state; @words: reason */
  DEED_DISPOSITION, /* @text: kind; @words: reference */
  DEED_LEAVE,       /* to measure still */
} Deed;

typedef struct
{
  int day;
  const char *number;
  Deed deed;
  const char *text;
  const char *words;
} Act;

static const Act acts[] = {
  /* a jumper that measures well and is worn out all the same */
  { 1, "713-J01", DEED_TYPE, "1.42", NULL },
  { 1, "713-J01", DEED_STRANDS, "30", "strands broken at the lug, about 30 %" },
  /* failed, reworked over night, measured again */
  { 1, "334-J01", DEED_TYPE, "4.85", NULL },
  { 2, "334-J01", DEED_REWORK, "jumper-replaced", "LM-26-0417-03" },
  { 2, "334-J01", DEED_TYPE, "0.62", NULL },
  /* the first rework was not enough */
  { 1, "571-J01", DEED_TYPE, "3.62", NULL },
  { 2, "571-J01", DEED_REWORK, "surfaces-cleaned", "LM-26-0417-04" },
  { 2, "571-J01", DEED_TYPE, "3.21", NULL },
  { 2, "571-J01", DEED_REWORK, "jumper-replaced", "LM-26-0417-04" },
  { 2, "571-J01", DEED_TYPE, "0.71", NULL },
  /* probes re-seated, joint not touched: two agree */
  { 1, "324-J01", DEED_TYPE, "3.35", NULL },
  { 1, "324-J01", DEED_TYPE, "1.90", NULL },
  { 1, "324-J01", DEED_TYPE, "1.92", NULL },
  /* within U of the limit, on either side */
  { 1, "531-J01", DEED_TYPE, "2.99", NULL },
  { 1, "124-E01", DEED_TYPE, "2.49", NULL },
  { 1, "344-J01", DEED_TYPE, "3.01", NULL },
  { 2, "344-J01", DEED_REWORK, "surfaces-cleaned", "LM-26-0417-05" },
  { 2, "344-J01", DEED_TYPE, "1.08", NULL },
  /* a coupling jumper left off: over-range above the limit; still open */
  { 1, "522-T01", DEED_TYPE, ">", "300mOhm" },
  /* over-range below the limit says nothing: range changed */
  { 1, "195-E01", DEED_TYPE, ">", "30mOhm" },
  { 1, "195-E01", DEED_TYPE, "41.2", "300mOhm" },
  /* below the display step, confirmed with the probes on two parts */
  { 1, "241-F01", DEED_TYPE, "<", "30mOhm" },
  /* voltage at a current */
  { 1, "824-J01", DEED_TYPE, "2.4mV 1.2A", NULL },
  /* put right: a slip, a wrong point, a meter that had come loose, an undo */
  { 1, "411-F01", DEED_TYPE, "11.2", NULL },
  { 1, "411-F01", DEED_CORRECT_SLIP, "1.12", "meter showed 1.12" },
  { 1, "512-J01", DEED_LEAVE, NULL, NULL },
  { 1, "612-J01", DEED_TYPE, "1.37 1.36", NULL },
  { 1, "612-J01", DEED_MOVE, "512-J01", "taken on the left wing" },
  { 1, "612-J01", DEED_TYPE, "0.94 0.95", NULL },
  { 1, "313-T01", DEED_TYPE, "61.0", NULL },
  { 1, "313-T01", DEED_VOID_FAULT, NULL, "lead plug loose in the meter" },
  { 1, "313-T01", DEED_TYPE, "8.3", NULL },
  { 1, "822-F01", DEED_TYPE, "2.11", NULL },
  { 1, "822-F01", DEED_UNDO, NULL, NULL },
  { 1, "822-F01", DEED_TYPE, "2.12", NULL },
  /* opened for access: the stricter value, if the row has one */
  { 1, "415-J01", DEED_OPENED, NULL, "LM-26-0417-01" },
  { 1, "415-J01", DEED_TYPE, "1.33 1.35", NULL },
  /* out of limits and not put right here */
  { 1, "417-F01", DEED_TYPE, "7.94", NULL },
  { 2, "417-F01", DEED_DISPOSITION, "carried-forward", "LM-DEF-0093" },
  { 1, "563-J01", DEED_TYPE, "14.20 14.16", NULL },
  { 2, "563-J01", DEED_DISPOSITION, "accepted", "LM-ENG-0021" },
  /* a pair that does not agree has no verdict; a rework that nobody has measured yet */
  { 1, "661-J01", DEED_TYPE, "1.10 3.90", NULL },
  { 1, "661-J01", DEED_TYPE, "1.12 3.88", NULL },
  { 1, "662-J01", DEED_TYPE, "6.31 6.28", NULL },
  { 2, "662-J01", DEED_REWORK, "jumper-replaced", "LM-26-0417-06" },
  /* not measured, and why */
  { 1, "195-T01", DEED_MARK, "not-accessible", "panel 195CL sealed, cure until 26 November" },
  { 1, "251-E01", DEED_MARK, "not-fitted", "this aircraft has no satellite aerial" },
  { 1, "413-T01", DEED_LEAVE, NULL, NULL },
  { 1, "431-T01", DEED_LEAVE, NULL, NULL },
  { 1, "431-T02", DEED_LEAVE, NULL, NULL },
  { 1, "314-E01", DEED_LEAVE, NULL, NULL },
};

static void
record_reason (DemoWalk *walk, BondEntry *entry, const BondEntry *ref, const char *reason)
{
  entry->ref = ref != NULL ? g_strdup (ref->id) : NULL;
  entry->reason = g_strdup (reason);
  demo_walk_record (walk, entry);
}

static void
correct_slip (DemoWalk *walk, BondPoint *point, const Act *act)
{
  BondEntry *wrong = demo_walk_newest (walk, point, BOND_ENTRY_READING);
  BondEntry *entry = demo_walk_entry (BOND_ENTRY_CORRECT, point, NULL);
  BondReadingText typed = { 0 };

  bond_reading_copy (&entry->correct.reading, &wrong->reading);
  entry->correct.why = BOND_VOID_TYPING_SLIP;
  if (bond_reading_text_parse (act->text, BOND_UNIT_MILLIOHM, &bond_number_format_file, 0, 0, &typed, &walk->error))
    {
      bond_reading_set_typed (&entry->correct.reading, &typed.value[0]);
      g_clear_pointer (&entry->correct.reading.said, g_free);
    }
  record_reason (walk, entry, wrong, act->words);
  bond_reading_text_clear (&typed);
}

static void
move_reading (DemoWalk *walk, BondPoint *point, const Act *act)
{
  BondPoint *right = demo_walk_point (walk, act->text);
  BondEntry *newest = demo_walk_newest (walk, point, BOND_ENTRY_READING);
  BondEntry *entry = demo_walk_entry (BOND_ENTRY_MOVE, point, NULL);
  entry->move.to_point = g_strdup (bond_point_get_id (right));
  entry->move.why = BOND_VOID_WRONG_POINT;
  /* The whole seating goes: its first reading stands for it. */
  record_reason (walk, entry, bond_survey_find_entry (walk->survey, newest->reading.of), act->words);
}

static void
rework (DemoWalk *walk, BondPoint *point, const Act *act)
{
  BondEntry *entry = demo_walk_entry (BOND_ENTRY_REWORK, point, NULL);
  BondReworkDone done = BOND_REWORK_OTHER;
  bond_rework_done_parse (act->text, &done);
  entry->rework.done = done;
  entry->rework.reference = g_strdup (act->words);
  entry->rework.done_by = g_strdup ("p-adeyemi");
  demo_walk_record (walk, entry);
}

static void
mark (DemoWalk *walk, BondPoint *point, const Act *act)
{
  BondEntry *entry = demo_walk_entry (BOND_ENTRY_STATE, point, NULL);
  bond_point_mark_parse (act->text, &entry->state.mark);
  record_reason (walk, entry, NULL, act->words);
}

static void
dispose (DemoWalk *walk, BondPoint *point, const Act *act)
{
  BondEntry *entry = demo_walk_entry (BOND_ENTRY_DISPOSITION, point, NULL);
  BondDisposition *disposition = &entry->disposition;

  bond_disposition_parse (act->text, &disposition->kind);
  disposition->reference = g_strdup (act->words);
  if (disposition->kind == BOND_DISPOSITION_ACCEPTED)
    {
      disposition->holder = g_strdup ("Larkmoor design office (invented)");
      disposition->until = g_strdup ("next heavy check");
      disposition->bounds.upper = (BondBound){ BOND_RELATION_LE, 20 * BOND_NOHM_PER_MILLIOHM, BOND_UNIT_MILLIOHM };
    }
  else
    {
      disposition->holder = g_strdup ("Bram Hollis (invented)");
      disposition->until = g_strdup ("2027-02-28");
      disposition->first_date = g_strdup ("2026-11-23");
    }
  record_reason (walk, entry, NULL, "parts not in stock");
}

static void
see_strands (DemoWalk *walk, BondPoint *point, const Act *act)
{
  BondEntry *entry = demo_walk_entry (BOND_ENTRY_VISUAL, point, NULL);
  gint64 percent = g_ascii_strtoll (act->text, NULL, 10);
  entry->visual.finding = BOND_VISUAL_STRANDS;
  entry->visual.reject = TRUE;
  entry->visual.percent = (int)percent;
  record_reason (walk, entry, NULL, act->words);
}

static void
void_fault (DemoWalk *walk, BondPoint *point, const Act *act)
{
  BondEntry *entry = demo_walk_entry (BOND_ENTRY_VOID, point, NULL);
  entry->voided.why = BOND_VOID_INSTRUMENT_FAULT;
  record_reason (walk, entry, demo_walk_newest (walk, point, BOND_ENTRY_READING), act->words);
}

static void
undo (DemoWalk *walk, BondPoint *point, const Act *act)
{
  BondEntry *target = bond_survey_undo_target (walk->survey);
  BondEntry *entry = demo_walk_entry (BOND_ENTRY_TAKE_BACK, NULL, NULL);
  record_reason (walk, entry, target, NULL);
}

static void
open_joint (DemoWalk *walk, BondPoint *point, const Act *act)
{
  BondEntry *entry = demo_walk_entry (BOND_ENTRY_CONDITION, point, NULL);
  entry->condition.condition = BOND_CONDITION_OPENED;
  entry->condition.reference = g_strdup (act->words);
  demo_walk_record (walk, entry);
}

static void
type (DemoWalk *walk, BondPoint *point, const Act *act)
{
  demo_walk_type (walk, point, NULL, act->text, act->words);
}

static void
leave (DemoWalk *walk, BondPoint *point, const Act *act)
{
}

static void
do_act (DemoWalk *walk, BondPoint *point, const Act *act)
{
  static void (*const deeds[]) (DemoWalk *, BondPoint *, const Act *) = { [DEED_TYPE] = type,
                                                                          [DEED_CORRECT_SLIP] = correct_slip,
                                                                          [DEED_VOID_FAULT] = void_fault,
                                                                          [DEED_MOVE] = move_reading,
                                                                          [DEED_UNDO] = undo,
                                                                          [DEED_REWORK] = rework,
                                                                          [DEED_OPENED] = open_joint,
                                                                          [DEED_STRANDS] = see_strands,
                                                                          [DEED_MARK] = mark,
                                                                          [DEED_DISPOSITION] = dispose,
                                                                          [DEED_LEAVE] = leave };
  if (walk->error != NULL)
    return;
  demo_walk_wait (walk, 11 + (int)gsl_rng_uniform_int (walk->random, 30));
  deeds[act->deed](walk, point, act);
}

/* Whether the table says what happened to the point that day; if not, it is measured like any other. */
static gboolean
do_acts (DemoWalk *walk, int day, BondPoint *point)
{
  gboolean found = FALSE;
  for (guint i = 0; i < G_N_ELEMENTS (acts); i++)
    if (acts[i].day == day && g_str_equal (acts[i].number, bond_point_get_number (point)))
      {
        do_act (walk, point, &acts[i]);
        found = TRUE;
      }
  return found;
}

/* --- points placed by hand --- */

static const char *const with_twin[DEMO_TWINS]
    = { "511-J01", "521-J01", "551-J01", "561-J01", "563-J01", "713-J01", "731-J01", "741-J01", "191-J01",
        "521-F01", "521-F02", "512-F01", "193-F01", "663-F01", "521-T02", "522-T01", "522-T02", "531-T01",
        "551-T01", "193-T01", "195-T01", "522-E01", "531-E01", "571-E01", "344-E01", "152-E01" };

static char *
other_side (const char *text)
{
  g_autoptr (GString) words = g_string_new (text);
  g_string_replace (words, "left", "\1", 0);
  g_string_replace (words, "Left", "\2", 0);
  g_string_replace (words, "right", "left", 0);
  g_string_replace (words, "Right", "Left", 0);
  g_string_replace (words, "\1", "right", 0);
  g_string_replace (words, "\2", "Right", 0);
  return g_string_free (g_steal_pointer (&words), FALSE);
}

static GHashTable *
numbers_in_use (BondSurvey *survey)
{
  GHashTable *used = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  guint n_points = g_list_model_get_n_items (G_LIST_MODEL (survey));
  for (guint i = 0; i < n_points; i++)
    {
      g_autoptr (BondPoint) point = g_list_model_get_item (G_LIST_MODEL (survey), i);
      g_hash_table_add (used, g_strdup (bond_point_get_number (point)));
    }
  return used;
}

static BondEntry *
place_point (DemoWalk *walk, BondPointSpec *spec)
{
  BondEntry *entry = bond_entry_new (BOND_ENTRY_POINT);
  entry->point = g_strdup (spec->id);
  entry->spec = spec;
  demo_walk_wait (walk, 24);
  demo_walk_record (walk, bond_entry_ref (entry));
  return entry;
}

static BondPointSpec *
twin_of (DemoWalk *walk, const BondPointSpec *spec)
{
  const BondAirframe *airframe = bond_survey_get_airframe (walk->survey);
  const BondPlacement *home = bond_point_spec_home (spec);
  const BondView *view = bond_airframe_find_view (airframe, home->view);
  const BondZone *zone = bond_airframe_find_zone (airframe, spec->zone);
  g_autoptr (GHashTable) used = numbers_in_use (walk->survey);
  g_autofree char *id = bond_source_id (walk->source, "q-");
  g_autofree char *number = bond_airframe_next_number (zone->mirror, spec->klass, used);
  BondPointSpec *twin = bond_point_spec_new (id, number, spec->klass, zone->mirror);
  double x, y;

  g_free (twin->from);
  twin->from = other_side (spec->from);
  g_free (twin->to);
  twin->to = other_side (spec->to);
  twin->limit = g_strdup (spec->limit);
  twin->why = g_strdup (spec->why);
  twin->sta = spec->sta;
  twin->wl = spec->wl;
  twin->bl = (BondCoordinate){ .known = spec->bl.known, .value = -spec->bl.value };
  if (bond_view_place (view, &twin->sta, &twin->bl, &twin->wl, &x, &y))
    bond_point_spec_add_placement (twin, view->id, x, y, TRUE, NULL);
  return twin;
}

static void
place_twins (DemoWalk *walk)
{
  for (guint i = 0; i < DEMO_TWINS && walk->error == NULL; i++)
    {
      BondPoint *point = demo_walk_point (walk, with_twin[i]);
      if (point != NULL)
        bond_entry_unref (place_point (walk, twin_of (walk, bond_point_get_spec (point))));
    }
}

/* One marker for a panel of bolts, of which every third is asked. */
static void
place_panel (DemoWalk *walk)
{
  BondPoint *near = demo_walk_point (walk, "522-F01");
  g_autofree char *id = bond_source_id (walk->source, "q-");
  BondPointSpec *panel = bond_point_spec_copy (bond_point_get_spec (near));
  g_autoptr (BondEntry) placed = NULL;

  g_free (panel->id);
  g_free (panel->number);
  g_free (panel->from);
  panel->id = g_strdup (id);
  panel->number = g_strdup (PANEL_NUMBER);
  panel->from = g_strdup ("Tank access panel 522AB, bolts 1 to 24");
  panel->from_template = FALSE;
  panel->sample_every = PANEL_EVERY;
  panel->sta.value += 14;
  panel->bl.value += 22;
  g_ptr_array_set_size (panel->placements, 0);
  {
    const BondView *view = bond_airframe_find_view (bond_survey_get_airframe (walk->survey), "plan-lower");
    double x, y;
    if (bond_view_place (view, &panel->sta, &panel->bl, &panel->wl, &x, &y))
      bond_point_spec_add_placement (panel, view->id, x, y, TRUE, NULL);
  }
  placed = place_point (walk, panel);
  for (int bolt = 1; bolt <= PANEL_BOLTS; bolt++)
    {
      BondEntry *entry = bond_entry_new (BOND_ENTRY_PLACE);
      entry->point = g_strdup (id);
      entry->place = bond_source_id (walk->source, "b-");
      entry->place_spec.label = g_strdup_printf ("bolt %d", bolt);
      entry->place_spec.in_sample = (bolt - 1) % PANEL_EVERY == 0;
      demo_walk_wait (walk, 1);
      demo_walk_record (walk, entry);
    }
}

/* --- the two days --- */

static void
measure_places (DemoWalk *walk, BondPoint *point)
{
  GPtrArray *places = bond_point_get_places (point);
  if (places->len == 1)
    {
      demo_walk_measure (walk, point, NULL);
      return;
    }
  while (walk->error == NULL && bond_point_next_place (point) != NULL)
    {
      g_autofree char *place = g_strdup (bond_point_next_place (point));
      demo_walk_wait (walk, 21);
      if (g_str_equal (bond_point_get_place (point, place)->label, BAD_BOLT))
        demo_walk_type (walk, point, place, "3.42", NULL);
      else
        demo_walk_measure (walk, point, place);
    }
}

static void
walk_round (DemoWalk *walk, int day)
{
  guint n_points = g_list_model_get_n_items (G_LIST_MODEL (walk->survey));
  for (guint i = 0; i < n_points && walk->error == NULL; i++)
    {
      g_autoptr (BondPoint) point = g_list_model_get_item (G_LIST_MODEL (walk->survey), i);
      if (do_acts (walk, day, point) || day > 1)
        continue;
      demo_walk_wait (walk, 32 + (int)gsl_rng_uniform_int (walk->random, 75));
      measure_places (walk, point);
    }
}

static gboolean
begin (DemoWalk *walk, const char *path, GError **error)
{
  g_autoptr (BondCatalog) catalog = bond_catalog_new (NULL, NULL);
  BondAirframe *airframe = bond_catalog_find (catalog, BOND_ADOPT_AIRFRAME, "generic-jet-transport");
  g_autoptr (GPtrArray) sets = bond_library_sets_for (airframe, catalog);
  g_autoptr (GPtrArray) people = demo_people ();
  g_autoptr (GPtrArray) instruments = demo_instruments ();
  g_autoptr (GPtrArray) earlier = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_earlier_unref);
  g_autoptr (BondHouse) house = demo_house ();
  BondNewSurvey what = { .registration = "ZZ-LMQ",
                         .serial = "0042",
                         .title = "Six-year bonding survey (invented example)",
                         .order = "LM-26-0417",
                         .trigger = "scheduled check",
                         .customer = "Example Regional Air (invented)",
                         .location = "Larkmoor, hangar 2 (invented)",
                         .person_id = DEMO_PERSON_FIRST,
                         .airframe = airframe,
                         .limit_sets = sets,
                         .instruments = instruments,
                         .people = people,
                         .house = house,
                         .earlier = earlier,
                         .rule = BOND_RULE_SIMPLE,
                         .invented = TRUE };

  g_ptr_array_add (earlier, demo_earlier (airframe, sets));
  walk->file = bond_library_new_survey (path, &what, walk->source, "Hangar 2", error);
  if (walk->file == NULL)
    return FALSE;
  walk->survey = bond_survey_file_get_survey (walk->file);
  bond_survey_file_set_synchronous (walk->file, TRUE);
  return TRUE;
}

static gboolean
end_sitting (DemoWalk *walk, GError **error)
{
  gboolean good = walk->error == NULL && bond_survey_file_close (walk->file, &walk->error);
  if (!good)
    g_propagate_error (error, g_steal_pointer (&walk->error));
  g_clear_object (&walk->file);
  walk->survey = NULL;
  return good;
}

static gboolean
begin_again (DemoWalk *walk, const char *path, GError **error)
{
  walk->file = bond_survey_file_open (path, BOND_OPEN_WRITE, walk->source, "Hangar 2", NULL, error);
  if (walk->file == NULL)
    return FALSE;
  walk->survey = bond_survey_file_get_survey (walk->file);
  bond_survey_file_set_synchronous (walk->file, TRUE);
  bond_survey_set_person (walk->survey, DEMO_PERSON_SECOND);
  return TRUE;
}

static gboolean
both_days (DemoWalk *walk, const char *path, GError **error)
{
  demo_walk_set_clock (walk, FIRST_DAY);
  if (!begin (walk, path, error))
    return FALSE;
  place_twins (walk);
  place_panel (walk);
  demo_permit_open (walk, "LM-FV-26-088 (invented)");
  walk_round (walk, 1);
  demo_permit_close (walk);
  if (!end_sitting (walk, error))
    return FALSE;
  demo_walk_set_clock (walk, SECOND_DAY);
  if (!begin_again (walk, path, error))
    return FALSE;
  demo_permit_open (walk, "LM-FV-26-089 (invented)");
  walk_round (walk, 2);
  demo_permit_close (walk);
  return end_sitting (walk, error);
}

gboolean
demo_write (const char *path, GError **error)
{
  DemoWalk walk
      = { .source = bond_source_new_fixed (FIRST_DAY, 0, ID_SEED), .random = gsl_rng_alloc (gsl_rng_mt19937) };
  gboolean good;

  g_return_val_if_fail (path != NULL, FALSE);
  gsl_rng_set (walk.random, RANDOM_SEED);
  good = both_days (&walk, path, error);
  g_clear_object (&walk.file);
  g_clear_error (&walk.error);
  g_clear_pointer (&walk.clock, g_date_time_unref);
  gsl_rng_free (walk.random);
  bond_source_unref (walk.source);
  return good;
}
