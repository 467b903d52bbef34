/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Entries that contradict themselves or their survey: figures against their text
 * with a whole chain, and names that nobody adopted.
 */
#include "sample.h"

#include <string.h>

/* The survey is written with @entry; then opened and looked at. */
static BondSurveyFile *
reopen_with (Sample *sample, BondEntry *entry, GPtrArray *problems)
{
  BondSurveyFile *file = sample_create (sample, 2);
  g_autoptr (GError) error = NULL;

  sample_record (file, entry);
  g_assert_true (bond_survey_file_close (file, NULL));
  g_clear_object (&file);
  file = bond_survey_file_open (sample->path, BOND_OPEN_WRITE, sample->source, "", problems, &error);
  g_assert_no_error (error);
  for (guint i = 0; i < problems->len; i++)
    g_test_message ("%s", ((BondProblem *)problems->pdata[i])->message);
  return file;
}

static void
check (Sample *sample, BondEntry *entry, const char *word)
{
  g_autoptr (GPtrArray) problems = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_problem_free);
  g_autoptr (BondSurveyFile) file = reopen_with (sample, entry, problems);

  if (word == NULL)
    {
      g_assert_cmpuint (problems->len, ==, 0);
      g_assert_true (bond_survey_file_is_sound (file));
      return;
    }
  g_assert_true (bond_survey_file_is_broken (file));
  g_assert_false (bond_survey_file_is_sound (file));
  g_assert_nonnull (strstr (bond_survey_get_read_only (bond_survey_file_get_survey (file)), word));
  g_assert_cmpuint (problems->len, ==, 1);
  g_assert_cmpint (((BondProblem *)problems->pdata[0])->line, >, 0);
}

static void
test_text_against_figure (Sample *sample, gconstpointer data)
{
  check (sample, sample_reading (1, "9.99", 1000000), "9.99");
}

static void
test_text_by_one (Sample *sample, gconstpointer data)
{
  check (sample, sample_reading (1, "1.84", 1840001), "1.84");
}

static void
test_text_no_number (Sample *sample, gconstpointer data)
{
  check (sample, sample_reading (1, "good", 1000000), "good");
}

/* As typed where the mark is a comma, and where "1,250" was answered. */
static void
test_comma (Sample *sample, gconstpointer data)
{
  check (sample, sample_reading (1, "1,250", 1250000), NULL);
}

static void
test_over_range (Sample *sample, gconstpointer data)
{
  BondEntry *entry = sample_reading (1, "OL", 30000000);

  entry->reading.quantity.qualifier = BOND_QUALIFIER_OVER;
  check (sample, entry, NULL);
}

/* 3.0 mV at 1.2 A is 2.5 mΩ. */
static BondEntry *
quotient (const char *text, BondOhm nohm)
{
  BondEntry *entry = sample_reading (1, text, nohm);

  entry->reading.nanovolt = 3000000;
  entry->reading.microampere = 1200000;
  return entry;
}

static void
test_quotient (Sample *sample, gconstpointer data)
{
  check (sample, quotient ("3.0mV 1.2A", 2500000), NULL);
}

static void
test_quotient_against_figure (Sample *sample, gconstpointer data)
{
  check (sample, quotient ("3.0mV 1.2A", 2400000), "voltage");
}

static void
test_quotient_against_text (Sample *sample, gconstpointer data)
{
  check (sample, quotient ("6.0mV 2.4A", 2500000), "6.0mV");
}

/* --- what cannot be recorded: written over a saved survey, whose chain then breaks too --- */

static void
assert_told (Sample *sample, const char *from, const char *to, const char *word)
{
  g_autoptr (GPtrArray) problems = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_problem_free);
  g_autofree char *good = NULL;
  gboolean told = FALSE;
  gsize length;

  good = sample_read (sample->path, &length);
  sample_replace (sample->path, from, to);
  g_assert_false (bond_survey_file_validate (sample->path, problems));
  for (guint i = 0; i < problems->len; i++)
    {
      const BondProblem *problem = problems->pdata[i];

      g_test_message ("%d: %s", problem->line, problem->message);
      told = told || (problem->line > 0 && strstr (problem->message, word) != NULL);
    }
  g_assert_true (told);
  sample_write (sample->path, good, length);
}

static void
test_unknown (Sample *sample, gconstpointer data)
{
  g_autoptr (BondSurveyFile) file = sample_create (sample, 2);
  BondEntry *entry = sample_reading (1, "1.84", 1840000);

  entry->reading.instrument = (g_free (entry->reading.instrument), g_strdup ("i-014"));
  sample_record (file, entry);
  g_assert_true (bond_survey_file_close (file, NULL));
  assert_told (sample, "instrument=\"i-014\"", "instrument=\"i-015\"", "i-015");
  assert_told (sample, "by=\"p-okafor\" kind=\"reading\"", "by=\"p-nobody\" kind=\"reading\"", "p-nobody");
  assert_told (sample, "number=\"541-J02\"", "number=\"541-J01\"", "two points 541-J01");
  assert_told (sample, "limit=\"example/J1\"", "limit=\"example/J9\"", "example/J9");
  assert_told (sample, "point=\"q-00000000000000000000000000000001\"", "point=\"q-00000000000000000000000000000009\"",
               "which no entry places");
}

#define CASE(name, function) g_test_add ("/store/sense/" name, Sample, NULL, sample_set_up, function, sample_tear_down)

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  bond_xml_init ();
  CASE ("text-against-figure", test_text_against_figure);
  CASE ("text-by-one", test_text_by_one);
  CASE ("text-no-number", test_text_no_number);
  CASE ("comma", test_comma);
  CASE ("over-range", test_over_range);
  CASE ("quotient", test_quotient);
  CASE ("quotient-against-figure", test_quotient_against_figure);
  CASE ("quotient-against-text", test_quotient_against_text);
  CASE ("unknown", test_unknown);
  return g_test_run ();
}
