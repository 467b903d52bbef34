/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The uncertainty of the value that counts, part by part, so that who signs can see
 * what U is made of.  The arithmetic is core/uncertainty.c, its figures in words
 * core/uncertainty-text.c.
 */
#include "gui/details/details-parts.h"
#include "gui/dialog.h"
#include "gui/start/detail.h"
#include "gui/words.h"
#include <glib/gi18n-lib.h>

/* The value that counts, else the last there was: it tells what the next can be worth. (nullable) */
static const BondMeasurement *
budget_of (const BondPlaceResult *place)
{
  return place->decides != NULL ? place->decides : place->last;
}

static char *
heading (const char *mark, const char *text)
{
  return g_strconcat (mark, text, NULL);
}

static GtkWidget *
new_table (GtkBox *box)
{
  g_autofree char *part = heading ("+", _ ("Part"));
  g_autofree char *stated = heading ("#", _ ("as stated"));
  g_autofree char *divisor = heading ("#", _ ("divisor"));
  g_autofree char *u = heading ("#", "u");
  g_autofree char *dof = heading ("#", "ν");
  const char *columns[] = { part, stated, divisor, _ ("shape"), u, dof, NULL };

  return bond_detail_table (box, columns);
}

static void
add_line (GtkWidget *table, const BondBudgetLine *line, BondUnit unit)
{
  char mark = bond_locale_mark ();
  g_autofree char *part = bond_words_sentence (bond_budget_source_name (line->source));
  g_autofree char *stated = bond_budget_format_part (line->half_width, unit, mark);
  g_autofree char *divisor = bond_budget_format_divisor (line->divisor, mark);
  g_autofree char *u = bond_budget_format_part (line->u, unit, mark);
  g_autofree char *dof = bond_budget_format_dof (line->dof, mark);
  const char *cells[] = { part, stated, divisor, bond_budget_source_shape (line->source), u, dof };

  bond_detail_row (table, cells);
}

static void
add_result (GtkBox *box, GtkWidget *table, const BondDetailsAbout *about, BondUnit unit)
{
  const BondMeasurement *m = budget_of (about->place);
  char mark = bond_locale_mark ();
  g_autofree char *combined = bond_budget_format_part (m->budget.u_c, unit, mark);
  g_autofree char *dof = bond_budget_format_dof (m->budget.dof_eff, mark);
  g_autofree char *k = bond_budget_format_divisor (m->budget.k, mark);
  g_autofree char *digits
      = bond_uncertainty_format (m->budget.u_nohm, unit, bond_words_decimals (about->survey, m, unit), mark);
  g_autofree char *expanded = g_strdup_printf ("%s\u00a0%s", digits, bond_unit_symbol (unit));
  g_autofree char *title = g_strdup_printf (_ ("U, coverage factor %s, rounded up"), k);
  const char *sum[] = { _ ("Combined"), NULL, NULL, NULL, combined, dof };
  const char *result[] = { title, NULL, NULL, NULL, expanded, NULL };

  bond_detail_row (table, sum);
  bond_detail_row (table, result);
  if (!m->budget.placing_included)
    bond_detail_text (box, _ ("Probe placing not included: no study of it was made for this class."), "note");
}

/* Why there is no U, and what to do about it. (transfer full) */
static char *
missing_words (const BondDetailsAbout *about)
{
  const BondMeasurement *m = budget_of (about->place);
  const BondReading *reading = m != NULL ? bond_entry_get_reading (g_ptr_array_index (m->readings, 0)) : NULL;
  const BondInstrument *instrument
      = reading != NULL && reading->instrument != NULL
            ? bond_survey_find_instrument_at (about->survey, reading->instrument, m->readings->pdata[0])
            : NULL;

  if (m == NULL)
    return g_strdup (_ ("Nothing was measured yet, so there is no uncertainty."));
  if (m->qualifier != BOND_QUALIFIER_NONE)
    return g_strdup (_ ("No uncertainty: the result is no figure but a bound."));
  return g_strdup_printf (_ ("No uncertainty: %s has no usable accuracy or certificate figure for this range."),
                          instrument != NULL ? instrument->name : _ ("the instrument"));
}

void
bond_details_budget_fill (GtkBox *box, GtkLabel *title, const BondDetailsAbout *about)
{
  const BondMeasurement *m = budget_of (about->place);
  BondUnit unit = bond_words_unit (about->place, BOND_UNIT_MILLIOHM);
  g_autofree char *value = m != NULL ? bond_words_result (about->survey, m, unit, TRUE) : NULL;
  GtkWidget *table;

  bond_details_clear (box);
  gtk_label_set_text (title, value != NULL ? value : "");
  if (m == NULL || !m->budget.known || m->qualifier != BOND_QUALIFIER_NONE)
    {
      g_autofree char *words = missing_words (about);

      bond_detail_text (box, words, "quiet");
      return;
    }
  table = new_table (box);
  for (int i = 0; i < m->budget.n_lines; i++)
    add_line (table, &m->budget.line[i], unit);
  add_result (box, table, about, unit);
  if (about->place->decides == NULL)
    bond_detail_text (box, _ ("It is of the last value; none counts now."), "note");
}
