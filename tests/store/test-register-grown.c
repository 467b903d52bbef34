/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Formats only grow: what people, houses, zones and points learned later is written
 * only where it is stated, comes back, is refused when it makes no sense, and a file
 * that never heard of it means what it always meant.
 */
#include "store/register-file.h"

#include <string.h>

#define HEAD(name) "<" name " xmlns='urn:bondwright:" name "' format='1' id='x' revision='1' "

static const char house_text[] = HEAD ("house") "/>";
static const char person_text[] = HEAD ("person") "name='A'/>";
static const char airframe_text[]
    = HEAD ("airframe") "name='A' units='in'><zones><zone number='500' name='Wing' level='major' side='left'/>"
                        "<zone number='521' name='Tank' level='zone' side='left' parent='500'/></zones><points>"
                        "<point id='q-1' number='521-F01' class='fastener' zone='521'><from>a</from><to>b</to></point>"
                        "</points></airframe>";

static gpointer
load (const char *text, BondAdoptKind *what, GError **error)
{
  g_autoptr (GPtrArray) problems = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_problem_free);

  return bond_register_load_bytes ("test.xml", text, strlen (text), what, problems, error);
}

/* @text with @more before the first @mark. */
static char *
grown (const char *text, const char *mark, const char *more)
{
  const char *at = strstr (text, mark);

  g_assert_nonnull (at);
  return g_strdup_printf ("%.*s%s%s", (int)(at - text), text, more, at);
}

/* One row a change: where it is put, what, and whether it still means something. */
static const struct
{
  const char *text, *mark, *more;
  gboolean good;
} rows[] = {
  { house_text, "/>", "bare-hours='48'", TRUE },
  { house_text, "/>", "bare-hours='0'", FALSE },
  { house_text, "/>", "bare-hours='169'", FALSE },
  { house_text, "/>", "vapour-permille-max='0'", TRUE },
  { house_text, "/>", "vapour-permille-max='201'", FALSE },
  { house_text, "/>", "oxygen-permille-min='200' oxygen-permille-max='225'", TRUE },
  { house_text, "/>", "oxygen-permille-min='215'", FALSE },
  { house_text, "/>", "oxygen-permille-max='200'", FALSE },
  { house_text, "/>", "strands-percent='10'", TRUE },
  { house_text, "/>", "strands-percent='0'", FALSE },
  { house_text, "/>", "strands-percent='ten'", FALSE },
  { person_text, "/>", " disabled='yes'", TRUE },
  { person_text, "/>", " disabled='perhaps'", FALSE },
  { airframe_text, "parent='500'", "hazards='fuel-vapour composite' ", TRUE },
  { airframe_text, "parent='500'", "hazards='' ", FALSE },
  { airframe_text, "parent='500'", "hazards='vapour' ", FALSE },
  { airframe_text, "parent='500'", "hazards='composite composite' ", FALSE },
  { airframe_text, "><from>", " hazards='explosive-devices'", TRUE },
  { airframe_text, "><from>", " hazards='noise'", FALSE },
  { airframe_text, "><from>", " arrangement='ring' sample-every='3' widen='no'", TRUE },
  { airframe_text, "><from>", " arrangement='star'", FALSE },
  { airframe_text, "><from>", " independent='yes'", TRUE },
  { airframe_text, "</point>", "<conductor area-um2='8400000' length-um='250000' resistivity-fohm-m='17241000'/>",
    TRUE },
  { airframe_text, "</point>", "<conductor area-um2='8400000' length-um='0' resistivity-fohm-m='17241000'/>", FALSE },
  { airframe_text, "</point>", "<conductor area-um2='8400000' length-um='250000'/>", FALSE },
  { airframe_text, "</point>", "<conductor area-um2='0' length-um='250000' resistivity-fohm-m='17241000'/>", FALSE },
};

/* What comes back writes the same text again, and the text holds what was put in. */
static void
test_there_and_back (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *text = grown (rows[i].text, rows[i].mark, rows[i].more), *first = NULL, *second = NULL;
      g_autoptr (GError) error = NULL;
      BondAdoptKind what;
      gpointer object = load (text, &what, &error), again;

      g_test_message ("%s", rows[i].more);
      g_assert_true ((object != NULL) == rows[i].good);
      g_assert_true ((error == NULL) == rows[i].good);
      if (object == NULL)
        continue;
      first = bond_register_to_text (what, object, NULL);
      again = load (first, &what, &error);
      g_assert_no_error (error);
      second = bond_register_to_text (what, again, NULL);
      g_assert_cmpstr (first, ==, second);
      bond_register_unref (what, object);
      bond_register_unref (what, again);
    }
}

/* Files from before: the values of the house rules, no hazard, and a reject that widens the sample. */
static void
test_not_stated (void)
{
  BondAdoptKind what;
  g_autoptr (BondHouse) house = load (house_text, &what, NULL);
  g_autoptr (BondPerson) person = load (person_text, &what, NULL);
  g_autoptr (BondAirframe) airframe = load (airframe_text, &what, NULL);
  g_autofree char *house_back = bond_register_to_text (BOND_ADOPT_HOUSE, house, NULL);
  g_autofree char *airframe_back = bond_register_to_text (BOND_ADOPT_AIRFRAME, airframe, NULL);
  const BondPointSpec *spec = airframe->points->pdata[0];

  g_assert_cmpint (house->bare_hours, ==, 24);           /* AC 43.13-1B (8 Sep 1998) ¶11-189 */
  g_assert_cmpint (house->vapour_permille_max, ==, 100); /* these three: from memory */
  g_assert_cmpint (house->oxygen_permille_min, ==, 195);
  g_assert_cmpint (house->oxygen_permille_max, ==, 235);
  g_assert_cmpint (house->strands_percent, ==, 25); /* common practice, no source */
  g_assert_null (strstr (house_back, "bare-hours"));
  g_assert_null (strstr (house_back, "oxygen"));
  g_assert_false (person->disabled);
  g_assert_cmpuint (spec->hazards, ==, 0);
  g_assert_true (spec->widen);
  g_assert_cmpint (spec->arrangement, ==, BOND_ARRANGEMENT_ROW);
  g_assert_cmpint (spec->conductor.area_um2, ==, 0);
  g_assert_null (strstr (airframe_back, "widen"));
  g_assert_null (strstr (airframe_back, "conductor"));
  g_assert_null (strstr (airframe_back, "hazards"));
}

static void
test_values (void)
{
  g_autofree char *zone = grown (airframe_text, "parent='500'", "hazards='composite fuel-vapour' ");
  g_autofree char *point = grown (zone, "><from>", " widen='no' arrangement='legs' independent='yes'");
  g_autofree char *text
      = grown (point, "</point>", "<conductor area-um2='8400000' length-um='250000' resistivity-fohm-m='17241000'/>");
  g_autoptr (GError) error = NULL;
  BondAdoptKind what;
  g_autoptr (BondAirframe) airframe = load (text, &what, &error);
  const BondPointSpec *spec;

  g_assert_no_error (error);
  spec = airframe->points->pdata[0];
  g_assert_cmpuint (bond_airframe_zone_hazards (airframe, "521"), ==, BOND_HAZARD_COMPOSITE | BOND_HAZARD_FUEL_VAPOUR);
  g_assert_cmpuint (bond_airframe_zone_hazards (airframe, "500"), ==, 0);
  g_assert_false (spec->widen);
  g_assert_cmpint (spec->arrangement, ==, BOND_ARRANGEMENT_LEGS);
  g_assert_true (spec->needs_independent);
  g_assert_cmpint (spec->conductor.length_um, ==, 250000);
  g_assert_cmpint (spec->conductor.resistivity_fohm_m, ==, 17241000);
}

/* The tanks of the airframes that come with the program hold vapour. */
static void
test_shipped_tanks (void)
{
  static const struct
  {
    const char *airframe, *tanks, *others;
  } shipped[] = {
    { "generic-jet-transport", "521 522 621 622", "541 131 211" },
    { "generic-turboprop", "522 622", "211 521" },
    { "generic-light-piston", "521 621", "211" },
    { "generic-helicopter", "131 132", "211" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (shipped); i++)
    {
      g_autofree char *name = g_strconcat (shipped[i].airframe, ".xml", NULL);
      g_autofree char *path = g_build_filename (g_test_get_dir (G_TEST_DIST), "..", "data", "airframes", name, NULL);
      g_auto (GStrv) tanks = g_strsplit (shipped[i].tanks, " ", -1), others = g_strsplit (shipped[i].others, " ", -1);
      g_autoptr (GError) error = NULL;
      BondAdoptKind what;
      g_autoptr (BondAirframe) airframe = bond_register_load (path, &what, NULL, &error);

      g_assert_no_error (error);
      for (guint j = 0; tanks[j] != NULL; j++)
        g_assert_cmpuint (bond_airframe_zone_hazards (airframe, tanks[j]), ==, BOND_HAZARD_FUEL_VAPOUR);
      for (guint j = 0; others[j] != NULL; j++)
        g_assert_cmpuint (bond_airframe_zone_hazards (airframe, others[j]), ==, 0);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  bond_xml_init ();
  g_test_add_func ("/register-grown/there-and-back", test_there_and_back);
  g_test_add_func ("/register-grown/not-stated", test_not_stated);
  g_test_add_func ("/register-grown/values", test_values);
  g_test_add_func ("/register-grown/shipped-tanks", test_shipped_tanks);
  return g_test_run ();
}
