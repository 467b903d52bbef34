/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Builds the survey of plane.h.  All figures are invented.
 */
#include "plane.h"

#include "store/register-file.h"

#define START "2026-05-04T09:00:00+02:00"

static gpointer
load (const char *folder, const char *name, BondAdoptKind expected)
{
  g_autofree char *file = g_strconcat (name, ".xml", NULL);
  g_autofree char *path = g_build_filename (g_getenv ("G_TEST_SRCDIR"), "..", "data", folder, file, NULL);
  g_autoptr (GPtrArray) problems = g_ptr_array_new ();
  g_autoptr (GError) error = NULL;
  BondAdoptKind what;
  gpointer object = bond_register_load (path, &what, problems, &error);

  g_assert_no_error (error);
  g_assert_cmpint (what, ==, expected);
  return object;
}

static void
record (BondSurvey *survey, BondEntry *entry)
{
  g_autoptr (GError) error = NULL;

  bond_survey_record_now (survey, entry, &error);
  g_assert_no_error (error);
}

static void
adopt (BondSurvey *survey, BondAdoptKind what, gpointer object)
{
  record (survey, bond_entry_adopt_new (what, object));
  bond_register_unref (what, object);
}

static void
record_point (BondSurvey *survey, BondPointSpec *spec)
{
  BondEntry *entry = bond_entry_new (BOND_ENTRY_POINT);

  entry->point = g_strdup (spec->id);
  entry->spec = bond_point_spec_ref (spec);
  record (survey, entry);
}

/* For every zone and for good: these tests are about drawing. */
static void
record_permit (BondSurvey *survey)
{
  BondEntry *entry = bond_entry_new (BOND_ENTRY_PERMIT);

  entry->permit = (BondPermit){ .hazard = BOND_HAZARD_FUEL_VAPOUR,
                                .number = g_strdup ("P-1"),
                                .zones = g_strdup ("100 200 300 400 500 600 700 800"),
                                .tester = g_strdup ("G. Tester"),
                                .gas_at = g_strdup (START),
                                .valid_until = g_strdup ("2099-01-01T00:00:00+01:00"),
                                .vapour_permille = 10,
                                .oxygen_permille = 209,
                                .counted_in = 4 };
  record (survey, entry);
}

BondSurvey *
plane_survey_new (const char *airframe_name)
{
  static const char *const sets[] = { "example", "ac-43-13-1b", "mil-hdbk-274a" };
  g_autoptr (BondSource) source = bond_source_new_fixed (START, 30, 7);
  BondSurvey *survey = bond_survey_new ("test-plane", source);
  BondAirframe *airframe = load ("airframes", airframe_name, BOND_ADOPT_AIRFRAME);
  BondEntry *create = bond_entry_new (BOND_ENTRY_CREATE);
  BondInstrument *meter;
  guint i;

  bond_survey_begin_sitting (survey, "s-1");
  bond_survey_set_person (survey, "p-1");
  create->create.aircraft_type = g_strdup (airframe_name);
  create->create.serial = g_strdup ("0042");
  create->create.registration = g_strdup ("ZZ-TQA");
  create->create.invented = TRUE;
  record (survey, create);
  adopt (survey, BOND_ADOPT_PERSON, bond_person_new ("p-1", 1, "Ines Invented", NULL, "inspector"));
  meter = load ("instruments", "i-mo-1", BOND_ADOPT_INSTRUMENT);
  meter->vapour_approved = TRUE; /* some of the points are in tanks */
  adopt (survey, BOND_ADOPT_INSTRUMENT, meter);
  /* Every set the points name: a point whose limit is nowhere in the survey is refused. */
  for (i = 0; i < G_N_ELEMENTS (sets); i++)
    adopt (survey, BOND_ADOPT_LIMIT_SET, load ("limits", sets[i], BOND_ADOPT_LIMIT_SET));
  adopt (survey, BOND_ADOPT_AIRFRAME, bond_airframe_ref (airframe));
  for (i = 0; i < airframe->points->len; i++)
    record_point (survey, g_ptr_array_index (airframe->points, i));
  record_permit (survey);
  bond_airframe_unref (airframe);
  return survey;
}

static char *
record_reading (BondSurvey *survey, BondPoint *point, BondOhm nohm, BondDirection direction, const char *of)
{
  BondEntry *entry = bond_entry_new (BOND_ENTRY_READING);
  BondReading *reading = &entry->reading;
  g_autoptr (BondEntry) held = bond_entry_ref (entry);
  const BondInstrument *meter = bond_survey_find_instrument (survey, "i-mo-1");
  const BondRange *range = bond_instrument_range_for (meter, nohm);

  entry->point = g_strdup (bond_point_get_id (point));
  reading->direction = direction;
  reading->of = g_strdup (of);
  reading->unit = BOND_UNIT_MILLIOHM;
  reading->text = bond_ohm_format_exact (nohm, BOND_UNIT_MILLIOHM, 2, '.');
  reading->quantity.nohm = nohm;
  reading->instrument = g_strdup ("i-mo-1");
  reading->range = g_strdup (range != NULL ? range->id : NULL);
  reading->via = g_strdup ("typed");
  record (survey, entry);
  return g_strdup (held->id);
}

void
plane_measure (BondSurvey *survey, const char *number, BondOhm nohm)
{
  BondPoint *point = bond_survey_find_number (survey, number);
  const BondLimitRow *row;
  g_autofree char *first = NULL;
  g_autofree char *second = NULL;

  g_assert_nonnull (point);
  row = bond_point_get_row (point);
  first = record_reading (survey, point, nohm, BOND_DIRECTION_FORWARD, NULL);
  if (row != NULL && row->pair)
    second = record_reading (survey, point, nohm, BOND_DIRECTION_REVERSE, first);
}

/* A place inside some zone of @view. */
static const BondZoneShape *
random_place (const BondView *view, GRand *random, double *x, double *y)
{
  const BondZoneShape *shape = NULL;

  while (shape == NULL)
    {
      *x = g_rand_double_range (random, 0.0, view->width);
      *y = g_rand_double_range (random, 0.0, view->height);
      shape = bond_view_hit (view, *x, *y);
    }
  return shape;
}

/* An entry as a file would bring it: recording thousands one by one would take minutes. */
static void
load_point (BondSurvey *survey, BondPointSpec *spec, int n)
{
  GPtrArray *entries = bond_survey_get_entries (survey);
  const BondEntry *last = g_ptr_array_index (entries, entries->len - 1);
  g_autoptr (BondEntry) entry = bond_entry_new (BOND_ENTRY_POINT);
  g_autoptr (GError) error = NULL;

  entry->id = g_strdup_printf ("s-more-%d", n);
  entry->sitting = g_strdup ("s-more");
  entry->n = n;
  entry->t = last->t + 1;
  entry->at = g_strdup (last->at);
  entry->by = g_strdup ("p-1");
  entry->point = g_strdup (spec->id);
  entry->spec = bond_point_spec_ref (spec);
  bond_survey_load_entry (survey, entry, &error);
  g_assert_no_error (error);
}

void
plane_add_points (BondSurvey *survey, const char *view_id, guint n)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (1);
  const BondView *view = bond_airframe_find_view (bond_survey_get_airframe (survey), view_id);
  guint i;

  for (i = 0; i < n; i++)
    {
      double x, y;
      const BondZoneShape *shape = random_place (view, random, &x, &y);
      g_autofree char *id = g_strdup_printf ("q-more-%u", i);
      g_autofree char *number = g_strdup_printf ("%s-J%05u", shape->zone, i + 1);
      g_autoptr (BondPointSpec) spec = bond_point_spec_new (id, number, BOND_CLASS_STRUCTURE, shape->zone);

      g_free (spec->from);
      g_free (spec->to);
      spec->from = g_strdup ("Bracket");
      spec->to = g_strdup ("Structure");
      bond_view_coordinates (view, x, y, &spec->sta, &spec->bl, &spec->wl);
      bond_point_spec_add_placement (spec, view_id, x, y, TRUE, NULL);
      load_point (survey, spec, (int)i + 1);
    }
  bond_survey_loaded (survey);
}
