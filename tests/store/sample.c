/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Builds the invented survey of sample.h.  Figures and names are made up.
 */
#include "sample.h"

#include "store/journal.h"

#include <glib/gstdio.h>
#include <string.h>

void
sample_set_up (Sample *sample, gconstpointer data)
{
  sample->folder = g_dir_make_tmp ("bond-store-XXXXXX", NULL);
  sample->path = g_build_filename (sample->folder, "sample.bondsurvey", NULL);
  sample->source = bond_source_new_fixed ("2026-11-24T09:58:00+01:00", 7, 1);
}

void
sample_tear_down (Sample *sample, gconstpointer data)
{
  g_autoptr (GDir) dir = g_dir_open (sample->folder, 0, NULL);
  const char *name;

  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (sample->folder, name, NULL);

      if (g_remove (path) != 0)
        g_test_message ("%s stays", path);
    }
  g_rmdir (sample->folder);
  bond_source_unref (sample->source);
  g_free (sample->folder);
  g_free (sample->path);
}

static BondLimitSet *
make_limits (void)
{
  BondLimitSet *set = bond_limit_set_new ("example", 1, "Example maintenance manual");
  BondLimitRow *row = bond_limit_row_new ();

  row->code = g_strdup ("J1");
  row->klass = BOND_CLASS_STRUCTURE;
  row->covers = g_strdup ("flap track joints");
  row->in_service.upper = (BondBound){ BOND_RELATION_LE, 2500000, BOND_UNIT_MILLIOHM };
  row->document = g_strdup ("Example maintenance manual");
  set->enabled = TRUE;
  set->invented = TRUE;
  g_assert_true (bond_limit_set_add (set, row, NULL));
  row = bond_limit_row_new ();
  row->code = g_strdup ("J2");
  row->klass = BOND_CLASS_STRUCTURE;
  row->covers = g_strdup ("boxes, parted");
  row->connectors = BOND_CONNECTORS_UNMATED;
  row->in_service.upper = (BondBound){ BOND_RELATION_LE, 2500000, BOND_UNIT_MILLIOHM };
  row->document = g_strdup ("Example maintenance manual");
  g_assert_true (bond_limit_set_add (set, row, NULL));
  return set;
}

static BondInstrument *
make_meter (void)
{
  BondInstrument *meter = bond_instrument_new ("i-014", 1, BOND_INSTRUMENT_MILLIOHMMETER, "MO-1");
  BondRange range = { .end = 30000000, .step = 10000, .accuracy_known = TRUE, .accuracy_reading_ppm = 2500 };
  g_autofree char *id = g_strdup ("30m");

  range.id = id;
  bond_instrument_add_range (meter, &range);
  return meter;
}

static BondEntry *
make_create (void)
{
  BondEntry *entry = bond_entry_new (BOND_ENTRY_CREATE);

  entry->create.aircraft_type = g_strdup ("generic-jet-transport");
  entry->create.serial = g_strdup ("0042");
  entry->create.registration = g_strdup ("ZZ-TQA");
  entry->create.order = g_strdup ("25-1187");
  entry->create.card = g_strdup ("20-51-01");
  entry->create.card_revision = g_strdup ("7");
  entry->create.hours = g_strdup ("41 207:35");
  entry->create.cycles = g_strdup ("28114");
  entry->create.power = g_strdup ("external, off");
  entry->create.fuel = g_strdup ("defuelled and vented");
  entry->create.data_checked_by = g_strdup ("p-okafor");
  entry->create.data_checked_on = g_strdup ("2026-11-24");
  entry->create.scope = g_strdup ("500 600");
  entry->create.title = g_strdup ("Sample, invented: µΩ & <quotes> \"here\"");
  entry->create.invented = TRUE;
  return entry;
}

static BondEntry *
make_point (int i)
{
  BondEntry *entry = bond_entry_new (BOND_ENTRY_POINT);
  g_autofree char *number = g_strdup_printf ("541-J%02d", i);
  BondPointSpec *spec;

  entry->point = g_strdup_printf ("q-%032d", i);
  spec = bond_point_spec_new (entry->point, number, BOND_CLASS_STRUCTURE, "541");
  g_free (spec->from);
  g_free (spec->to);
  spec->from = g_strdup ("Flap track 2");
  spec->to = g_strdup ("Rear spar");
  spec->limit = g_strdup ("example/J1");
  if (i == 92)
    {
      g_free (spec->limit);
      spec->limit = g_strdup ("example/J2");
      spec->widen = FALSE;
      spec->arrangement = BOND_ARRANGEMENT_RING;
      spec->hazards = BOND_HAZARD_COMPOSITE;
      spec->needs_independent = TRUE;
      spec->conductor = (BondConductor){ 8400000, 250000, 17241000 };
    }
  spec->sta = (BondCoordinate){ TRUE, 759.1 + i / 8.0 };
  bond_point_spec_add_placement (spec, "plan-lower", 695.5, 759.1 + i / 8.0, TRUE, NULL);
  entry->spec = spec;
  return entry;
}

static void
record (BondSurvey *survey, BondEntry *entry)
{
  g_autoptr (GError) error = NULL;

  bond_survey_record_now (survey, entry, &error);
  g_assert_no_error (error);
}

void
sample_start (BondSurvey *survey, int n_points)
{
  g_autoptr (BondLimitSet) limits = make_limits ();
  g_autoptr (BondInstrument) meter = make_meter ();
  g_autoptr (BondPerson) person = bond_person_new ("p-okafor", 1, "Ada Okafor", "QA 7", "inspector");

  bond_survey_set_person (survey, "p-okafor");
  record (survey, make_create ());
  record (survey, bond_entry_adopt_new (BOND_ADOPT_LIMIT_SET, limits));
  record (survey, bond_entry_adopt_new (BOND_ADOPT_INSTRUMENT, meter));
  record (survey, bond_entry_adopt_new (BOND_ADOPT_PERSON, person));
  for (int i = 1; i <= n_points; i++)
    record (survey, make_point (i));
}

BondSurveyFile *
sample_create (Sample *sample, int n_points)
{
  g_autoptr (GError) error = NULL;
  BondSurveyFile *file = bond_survey_file_create (sample->path, sample->source, "Hangar 2", &error);

  g_assert_no_error (error);
  bond_survey_file_set_synchronous (file, TRUE);
  sample_start (bond_survey_file_get_survey (file), n_points);
  return file;
}

BondSurveyFile *
sample_open (Sample *sample)
{
  g_autoptr (GError) error = NULL;
  BondSurveyFile *file
      = bond_survey_file_open (sample->path, BOND_OPEN_WRITE, sample->source, "Hangar 2", NULL, &error);

  g_assert_no_error (error);
  g_assert_cmpstr (bond_survey_get_read_only (bond_survey_file_get_survey (file)), ==, NULL);
  bond_survey_file_set_synchronous (file, TRUE);
  bond_survey_set_person (bond_survey_file_get_survey (file), "p-okafor");
  return file;
}

BondEntry *
sample_reading (int i, const char *text, BondOhm nohm)
{
  BondEntry *entry = bond_entry_new (BOND_ENTRY_READING);

  entry->point = g_strdup_printf ("q-%032d", i);
  entry->reading.text = g_strdup (text);
  entry->reading.unit = BOND_UNIT_MILLIOHM;
  entry->reading.quantity.nohm = nohm;
  entry->reading.instrument = g_strdup ("i-014");
  entry->reading.range = g_strdup ("30m");
  entry->reading.via = g_strdup ("typed");
  return entry;
}

void
sample_record (BondSurveyFile *file, BondEntry *entry)
{
  record (bond_survey_file_get_survey (file), entry);
}

void
sample_measure (BondSurveyFile *file, int n, int n_points)
{
  for (int i = 0; i < n; i++)
    {
      BondOhm nohm = 1000000 + 10000 * (i % 100);
      g_autofree char *text = g_strdup_printf ("1.%02d", i % 100);

      sample_record (file, sample_reading (1 + i % n_points, text, nohm));
    }
}

/* Of the newest reading. */
static char *
last_reading (BondSurveyFile *file)
{
  GPtrArray *entries = bond_survey_get_entries (bond_survey_file_get_survey (file));

  for (guint i = entries->len; i > 0; i--)
    if (((BondEntry *)g_ptr_array_index (entries, i - 1))->kind == BOND_ENTRY_READING)
      return g_strdup (((BondEntry *)g_ptr_array_index (entries, i - 1))->id);
  g_assert_not_reached ();
}

static BondEntry *
entry_at (BondEntryKind kind, int point)
{
  BondEntry *entry = bond_entry_new (kind);

  entry->point = g_strdup_printf ("q-%032d", point);
  return entry;
}

static BondEntry *
entry_about (BondEntryKind kind, int point, char *ref, const char *reason)
{
  BondEntry *entry = entry_at (kind, point);

  entry->ref = ref;
  entry->reason = g_strdup (reason);
  return entry;
}

static void
record_corrections (BondSurveyFile *file)
{
  BondEntry *entry;
  g_autoptr (BondEntry) again = sample_reading (1, "1,20", 1200000);

  sample_record (file, sample_reading (1, "12,0", 12000000));
  entry = entry_about (BOND_ENTRY_CORRECT, 1, last_reading (file), "comma slipped");
  entry->correct.why = BOND_VOID_TYPING_SLIP;
  bond_reading_copy (&entry->correct.reading, &again->reading);
  sample_record (file, entry);
  sample_record (file, sample_reading (1, "1.30", 1300000));
  entry = entry_about (BOND_ENTRY_VOID, 1, last_reading (file), "probe slipped\nand fell");
  entry->voided.why = BOND_VOID_OTHER;
  sample_record (file, entry);
  sample_record (file, sample_reading (1, "1.40", 1400000));
  entry = entry_about (BOND_ENTRY_MOVE, 1, last_reading (file), "was at the next joint");
  entry->move.to_point = g_strdup_printf ("q-%032d", 2);
  entry->move.why = BOND_VOID_WRONG_POINT;
  sample_record (file, entry);
  sample_record (file, sample_reading (2, "1.50", 1500000));
  entry = bond_entry_new (BOND_ENTRY_TAKE_BACK);
  entry->ref = last_reading (file);
  sample_record (file, entry);
}

static void
record_conditions (BondSurveyFile *file)
{
  BondEntry *entry = entry_at (BOND_ENTRY_VISUAL, 2);

  entry->visual.finding = BOND_VISUAL_STRANDS;
  entry->visual.percent = 5;
  entry->reason = g_strdup ("3 of 60 strands");
  sample_record (file, entry);
  sample_record (file, sample_reading (3, "3.12", 3120000));
  entry = entry_at (BOND_ENTRY_DISPOSITION, 3);
  entry->disposition.kind = BOND_DISPOSITION_DEFERRED;
  entry->disposition.reference = g_strdup ("DD 17");
  entry->disposition.holder = g_strdup ("CS 12");
  entry->disposition.until = g_strdup ("2026-12-24");
  entry->disposition.first_date = g_strdup ("2026-11-24");
  sample_record (file, entry);
  entry = entry_at (BOND_ENTRY_REWORK, 3);
  entry->rework.done = BOND_REWORK_SURFACES_CLEANED | BOND_REWORK_TORQUE_RESTORED;
  entry->rework.reference = g_strdup ("NRC 0231");
  entry->rework.note = g_strdup ("two lines\nof text");
  entry->rework.found = BOND_VISUAL_CORROSION;
  sample_record (file, entry);
  entry = entry_at (BOND_ENTRY_CONDITION, 2);
  entry->condition.condition = BOND_CONDITION_OPENED;
  entry->condition.reference = g_strdup ("TC 4");
  sample_record (file, entry);
}

/* What is done at a joint beside measuring it. */
static void
record_acts (BondSurveyFile *file)
{
  BondEntry *entry = entry_at (BOND_ENTRY_NOTE, 3);

  entry->note.text = g_strdup ("heat-tinted,\nphoto <later> & \"more\"");
  sample_record (file, entry);
  sample_record (file, sample_reading (3, "4.20", 4200000));
  entry = entry_at (BOND_ENTRY_DEFECT, 3);
  entry->defect.card = g_strdup ("D-0231");
  entry->defect.words = g_strdup ("joint above its limit");
  sample_record (file, entry);
  entry = entry_at (BOND_ENTRY_REFINISH, 3);
  entry->refinish.how = g_strdup ("chromate primer, two coats");
  entry->refinish.reference = g_strdup ("NRC 0231");
  entry->refinish.done_by = g_strdup ("B. Hollis");
  sample_record (file, entry);
  sample_record (file, make_point (92));
  sample_record (file, sample_reading (92, "1.30", 1300000));
  entry = entry_about (BOND_ENTRY_DEVIATION, 92, last_reading (file), "harness cannot be parted here");
  entry->deviation.holder = g_strdup ("E. Lind, design office");
  sample_record (file, entry);
}

static char *
hour_ahead (BondSurveyFile *file, int hours)
{
  g_autofree char *now = bond_source_peek (bond_survey_get_source (bond_survey_file_get_survey (file)));
  g_autoptr (GDateTime) time = g_date_time_new_from_iso8601 (now, NULL);
  g_autoptr (GDateTime) then = g_date_time_add_hours (time, hours);

  return g_date_time_format (then, "%Y-%m-%dT%H:%M:%S%:z");
}

/* Leave to measure, cautions, the clip, and the end of the shift. */
static void
record_shift (BondSurveyFile *file)
{
  GPtrArray *permits = bond_survey_get_permits (bond_survey_file_get_survey (file));
  g_autoptr (BondPerson) other = bond_person_new ("p-lind", 1, "E. Lind", NULL, NULL);
  BondEntry *entry = bond_entry_new (BOND_ENTRY_PERMIT);

  entry->permit = (BondPermit){ BOND_HAZARD_FUEL_VAPOUR,
                                .number = g_strdup ("FV-12"),
                                .zones = g_strdup ("541 542"),
                                .tester = g_strdup ("T. Sato"),
                                .authority = g_strdup ("fire picket"),
                                .gas_at = hour_ahead (file, -1),
                                .valid_until = hour_ahead (file, 4),
                                .vapour_permille = 40,
                                .oxygen_permille = 208,
                                .counted_in = 5 };
  sample_record (file, entry);
  entry = bond_entry_new (BOND_ENTRY_CLOSE_PERMIT);
  entry->ref = g_strdup (((BondEntry *)g_ptr_array_index (permits, 0))->id);
  entry->close_permit.counted_out = 4;
  entry->reason = g_strdup ("one clip found on the trolley");
  sample_record (file, entry);
  entry = bond_entry_new (BOND_ENTRY_REFERENCE);
  entry->reference_move.from = g_strdup ("stud G1");
  entry->reference_move.to = g_strdup ("stud G2");
  sample_record (file, entry);
  entry = bond_entry_new (BOND_ENTRY_CAUTION);
  entry->caution.shown = g_strdup ("power vapour");
  entry->caution.zones = g_strdup ("541");
  sample_record (file, entry);
  sample_record (file, bond_entry_adopt_new (BOND_ADOPT_PERSON, other));
  entry = bond_entry_new (BOND_ENTRY_HANDOVER);
  entry->handover = (BondHandover){ g_strdup ("p-lind"),
                                    g_strdup ("left wing"),
                                    g_strdup ("right wing"),
                                    g_strdup ("541-J03 2026-11-24T10:15:00+01:00"),
                                    g_strdup ("541AB off"),
                                    g_strdup ("MO-1 checked at 9:50"),
                                    g_strdup ("two lines\nof notes"),
                                    .points_done = 12,
                                    .points_to_do = 3 };
  sample_record (file, entry);
}

void
sample_entry_of_every_kind (BondSurveyFile *file)
{
  g_autoptr (BondHouse) house = bond_house_new ("house", 1, "Example organisation");
  g_autoptr (BondEarlier) earlier = bond_earlier_new ("00000000000000000000000000000099", "2025-11-20");
  g_autofree char *point = g_strdup_printf ("q-%032d", 1);
  BondEarlierItem item = { .point = point, .result = { 1410000, 0, BOND_QUALIFIER_NONE } };
  BondEntry *entry;

  item.state = (char *)"pass";
  bond_earlier_add (earlier, &item);
  sample_record (file, bond_entry_adopt_new (BOND_ADOPT_HOUSE, house));
  sample_record (file, bond_entry_adopt_new (BOND_ADOPT_EARLIER, earlier));
  record_corrections (file);
  record_conditions (file);
  record_acts (file);
  record_shift (file);
  sample_record (file, make_point (90));
  entry = entry_at (BOND_ENTRY_PLACE, 90);
  entry->place = g_strdup ("1");
  entry->place_spec = (BondPlaceSpec){ g_strdup ("bolt 1"), TRUE };
  sample_record (file, entry);
  sample_record (file, make_point (91));
  entry = entry_at (BOND_ENTRY_STATE, 91);
  entry->state.mark = BOND_POINT_MARK_NOT_ACCESSIBLE;
  entry->reason = g_strdup ("behind the galley");
  sample_record (file, entry);
  entry = sample_reading (91, "1.10", 1100000);
  entry->kind = BOND_ENTRY_SEEN;
  sample_record (file, entry);
}

void
sample_assert_valid (const char *path)
{
  g_autoptr (GPtrArray) problems = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_problem_free);

  if (bond_survey_file_validate (path, problems))
    return;
  g_error ("%s", ((BondProblem *)g_ptr_array_index (problems, 0))->message);
}

char *
sample_read (const char *path, gsize *length)
{
  char *bytes = NULL;
  g_autoptr (GError) error = NULL;

  g_file_get_contents (path, &bytes, length, &error);
  g_assert_no_error (error);
  return bytes;
}

void
sample_write (const char *path, const char *bytes, gsize length)
{
  g_autoptr (GError) error = NULL;

  g_file_set_contents (path, bytes, (gssize)length, &error);
  g_assert_no_error (error);
}

void
sample_replace (const char *path, const char *from, const char *to)
{
  gsize length;
  g_autofree char *bytes = sample_read (path, &length);
  char *at = strstr (bytes, from);
  g_autoptr (GString) text = NULL;

  g_assert_nonnull (at);
  text = g_string_new_len (bytes, at - bytes);
  g_string_append (text, to);
  g_string_append (text, at + strlen (from));
  sample_write (path, text->str, text->len);
}

gboolean
sample_exists (const char *path)
{
  return g_file_test (path, G_FILE_TEST_EXISTS);
}
