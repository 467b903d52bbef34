/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The register of instruments: what each can measure, how well, and until when it is
 * in date.
 */
#include "core/uncertainty.h"
#include "gui/start/due.h"
#include "gui/start/register-page.h"
#include "gui/start/register-private.h"
#include "gui/words.h"
#include "library/library.h"
#include <glib/gi18n-lib.h>

static const char *const kind_names[] = {
  [BOND_INSTRUMENT_MILLIOHMMETER] = N_ ("milliohmmeter"),
  [BOND_INSTRUMENT_MEGOHMMETER] = N_ ("megohmmeter"),
  [BOND_INSTRUMENT_CHECK_RESISTOR] = N_ ("check resistor"),
  [BOND_INSTRUMENT_LEADS] = N_ ("leads"),
};

static const char *const reversal_names[] = {
  [BOND_REVERSAL_BY_HAND] = N_ ("by hand; shows no sign"),
  [BOND_REVERSAL_SHOWS_MINUS] = N_ ("by hand; shows minus in reverse"),
  [BOND_REVERSAL_BY_ITSELF] = N_ ("reverses by itself and shows the mean"),
};

/* The unit a figure is read in: the largest that leaves one digit before the mark. */
static BondUnit
unit_for (BondOhm nohm)
{
  BondUnit unit = BOND_UNIT_MICROOHM;

  for (int next = BOND_UNIT_MICROOHM; next <= BOND_UNIT_MEGOHM; next++)
    if (nohm >= bond_unit_nohm ((BondUnit)next))
      unit = (BondUnit)next;
  return unit;
}

/* "0.25" of 2500 ppm, without zeros at the end. */
static char *
percent (gint64 ppm)
{
  g_autofree char *text
      = g_strdup_printf ("%" G_GINT64_FORMAT "%c%04" G_GINT64_FORMAT, ppm / 10000, bond_locale_mark (), ppm % 10000);
  gsize length = strlen (text);

  while (text[length - 1] == '0')
    text[--length] = '\0';
  if (text[length - 1] == bond_locale_mark ())
    text[--length] = '\0';
  return g_steal_pointer (&text);
}

static char *
ohms (BondOhm nohm, BondUnit unit)
{
  int decimals = 0;

  for (BondOhm part = bond_unit_nohm (unit); decimals < 6 && part > 1 && nohm % part != 0; part /= 10)
    decimals++;
  return bond_words_ohm (nohm, unit, decimals);
}

static char *
accuracy_words (const BondRange *range, BondUnit unit)
{
  g_autofree char *reading = percent (range->accuracy_reading_ppm);
  g_autofree char *of_range = percent (range->accuracy_range_ppm);
  g_autofree char *fixed = ohms (range->accuracy_nohm, unit);
  GString *text = g_string_new ("±(");
  gsize start = text->len;

  if (!range->accuracy_known)
    {
      g_string_assign (text, _ ("not known"));
      return g_string_free (text, FALSE);
    }
  if (range->accuracy_reading_ppm > 0)
    g_string_append_printf (text, _ ("%s\u00a0%% of reading"), reading);
  if (range->accuracy_range_ppm > 0)
    g_string_append_printf (text, _ ("%s%s\u00a0%% of range"), text->len > start ? " + " : "", of_range);
  if (range->accuracy_counts > 0)
    g_string_append_printf (text, ngettext ("%s%d step", "%s%d steps", (gulong)range->accuracy_counts),
                            text->len > start ? " + " : "", range->accuracy_counts);
  if (range->accuracy_nohm > 0)
    g_string_append_printf (text, "%s%s", text->len > start ? " + " : "", fixed);
  g_string_append_c (text, ')');
  return g_string_free (text, FALSE);
}

static char *
current_words (gint64 microampere)
{
  char mark = bond_locale_mark ();

  if (microampere <= 0)
    return g_strdup (_ ("not stated"));
  if (microampere % 1000000 == 0)
    return g_strdup_printf ("%" G_GINT64_FORMAT "\u00a0A", microampere / 1000000);
  if (microampere >= 1000000)
    return g_strdup_printf ("%" G_GINT64_FORMAT "%c%" G_GINT64_FORMAT "\u00a0A", microampere / 1000000, mark,
                            microampere % 1000000 / 100000);
  if (microampere >= 1000)
    return g_strdup_printf ("%" G_GINT64_FORMAT "\u00a0mA", microampere / 1000);
  return g_strdup_printf ("%" G_GINT64_FORMAT "\u00a0µA", microampere);
}

static char *
u_words (const BondInstrument *instrument, const BondRange *range, BondUnit unit)
{
  BondBudget budget;
  BondOhm part = bond_unit_nohm (unit);

  bond_budget_compute (&budget, instrument, range, (double)range->end / 2, NULL, 0, NULL);
  if (!budget.known)
    return g_strdup (_ ("not known"));
  /* One digit finer than the display, and never rounded down. */
  for (int i = bond_range_decimals (range, unit) + 1; i > 0 && part > 1; i--)
    part /= 10;
  return ohms ((budget.u_nohm + part - 1) / part * part, unit);
}

static void
add_ranges (GtkBox *box, const BondInstrument *instrument)
{
  const char *columns[]
      = { _ ("#Range to"), _ ("#Step"), _ ("+Accuracy"), _ ("#Current"), _ ("#U at half range"), NULL };
  GtkWidget *table;

  if (instrument->ranges->len == 0)
    return;
  bond_detail_heading (box, _ ("Ranges"));
  table = bond_detail_table (box, columns);
  for (guint i = 0; i < instrument->ranges->len; i++)
    {
      const BondRange *range = instrument->ranges->pdata[i];
      BondUnit unit = unit_for (range->end);
      g_autofree char *end = ohms (range->end, unit);
      g_autofree char *step = ohms (range->step, unit);
      g_autofree char *accuracy = accuracy_words (range, unit);
      g_autofree char *current = current_words (range->microampere);
      g_autofree char *u = u_words (instrument, range, unit);
      const char *cells[] = { end, step, accuracy, current, u };

      bond_detail_row (table, cells);
    }
  bond_detail_text (
      box,
      _ ("U with k of the budget, at the middle of the range, from accuracy, display step and certificate; "
         "probe placing not included."),
      "note");
}

static char *
due_words (BondRegisterPage *page, const BondInstrument *instrument)
{
  g_autofree char *date = bond_words_date (instrument->due);
  GDate today;

  bond_due_today (bond_application_get_source (bond_register_page_get_application (page)), &today);
  if (instrument->due == NULL)
    return g_strdup (_ ("not stated"));
  return g_strdup_printf (bond_instrument_in_date (instrument, &today) ? "%s" : _ ("%s, past"), date);
}

static char *
certificate_words (const BondInstrument *instrument)
{
  g_autofree char *share = percent (instrument->certificate_ppm);
  GString *text = g_string_new (instrument->certificate != NULL ? instrument->certificate : "");

  if (instrument->certificate_ppm > 0)
    g_string_append_printf (text, _ ("%sU = %s\u00a0%% of reading, k = %g"), text->len > 0 ? ", " : "", share,
                            instrument->certificate_k);
  return g_string_free (text, FALSE);
}

static void
instrument_fill (BondRegisterPage *page, GtkBox *box, gconstpointer object)
{
  const BondInstrument *instrument = object;
  gboolean meter = instrument->ranges->len > 0;
  g_autofree char *due = due_words (page, instrument);
  g_autofree char *certificate = certificate_words (instrument);
  g_autofree char *revision = g_strdup_printf ("%d", instrument->revision);
  g_autofree char *volts = instrument->test_volts > 0 ? g_strdup_printf ("%d\u00a0V", instrument->test_volts) : NULL;
  g_autofree char *nominal
      = instrument->nominal > 0 ? ohms (instrument->nominal, unit_for (instrument->nominal)) : NULL;

  bond_detail_heading (box, instrument->name);
  bond_detail_pair (box, _ ("Kind"), _ (kind_names[instrument->kind]));
  bond_detail_pair (box, _ ("Make"), instrument->make);
  bond_detail_pair (box, _ ("Serial number"), instrument->serial);
  bond_detail_pair (box, _ ("Calibration due"), due);
  bond_detail_pair (box, _ ("Certificate"), certificate);
  bond_detail_pair (box, _ ("Certified value"), nominal);
  bond_detail_pair (box, _ ("Test voltage"), volts);
  bond_detail_pair (box, _ ("Reversed current"), meter ? _ (reversal_names[instrument->reversal]) : NULL);
  bond_detail_pair (box, _ ("Fuel vapour"),
                    instrument->vapour_approved ? _ ("approved for use where fuel vapour may be")
                    : meter                     ? _ ("not approved")
                                                : NULL);
  bond_detail_pair (box, _ ("Revision"), revision);
  add_ranges (box, instrument);
}

static char *
instrument_first (gconstpointer object)
{
  return g_strdup (((const BondInstrument *)object)->name);
}

static char *
instrument_second (gconstpointer object)
{
  const BondInstrument *instrument = object;
  g_autofree char *date = bond_words_date (instrument->due);

  return instrument->due != NULL ? g_strdup_printf (_ ("%s,\ndue %s"), _ (kind_names[instrument->kind]), date)
                                 : g_strdup (_ (kind_names[instrument->kind]));
}

GtkWidget *
bond_instruments_page_new (BondApplication *application)
{
  static const BondRegisterInfo info = {
    .what = BOND_ADOPT_INSTRUMENT,
    .folder = "instruments",
    .title = N_ ("Instruments"),
    .empty = N_ ("No instrument in the library. Put its file into the folder “instruments” of the library."),
    .first = instrument_first,
    .second = instrument_second,
    .fill = instrument_fill,
  };

  return bond_register_page_new (application, &info);
}
