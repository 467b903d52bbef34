/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The uncertainty of the value that counts, part by part, so that who signs can see
 * what U is made of.  The arithmetic is core/uncertainty.c, its figures in words
 * core/uncertainty-text.c.
 */
#include "gui/details/details-part.h"
#include "gui/details/details-parts.h"
#include "gui/start/detail.h"
#include "gui/words.h"
#include <glib/gi18n-lib.h>

/* The value that counts, else the last there was: it tells what the next can be worth. (nullable) */
static const BondMeasurement *
budget_of (const BondPlaceResult *place)
{
  return place->decides != NULL ? place->decides : place->last;
}

/* Columns of the table; figures stand at the right. */
enum
{
  PART,
  STATED,
  DIVISOR,
  U,
  DOF,
  N_COLUMNS,
};

/* One line, and a rule below it. @strong: the last, which is what all the others are for. */
static void
add_cells (GtkGrid *table, const char *const *cells, const char *css)
{
  int row = GPOINTER_TO_INT (g_object_get_data (G_OBJECT (table), "rows"));
  GtkWidget *rule = gtk_separator_new (GTK_ORIENTATION_HORIZONTAL);

  for (int i = 0; i < N_COLUMNS; i++)
    {
      GtkWidget *label = bond_detail_label (cells[i] != NULL ? cells[i] : "", css);

      if (i == PART)
        gtk_widget_set_hexpand (label, TRUE);
      else
        {
          gtk_label_set_xalign (GTK_LABEL (label), 1);
          gtk_label_set_wrap (GTK_LABEL (label), FALSE);
          gtk_widget_add_css_class (label, "number");
        }
      gtk_widget_set_valign (label, GTK_ALIGN_BASELINE);
      gtk_grid_attach (table, label, i, row, 1, 1);
    }
  gtk_widget_add_css_class (rule, "rule");
  gtk_grid_attach (table, rule, 0, row + 1, N_COLUMNS, 1);
  g_object_set_data (G_OBJECT (table), "rows", GINT_TO_POINTER (row + 2));
}

static GtkGrid *
new_table (GtkBox *box, BondUnit unit)
{
  GtkGrid *table = GTK_GRID (gtk_grid_new ());
  g_autofree char *stated = g_strdup_printf (_ ("as stated, %s"), bond_unit_symbol (unit));
  g_autofree char *u = g_strdup_printf (_ ("u, %s"), bond_unit_symbol (unit));
  const char *heads[] = { NULL, stated, _ ("divisor"), u, "ν" };

  gtk_grid_set_column_spacing (table, 16);
  gtk_grid_set_row_spacing (table, 4);
  add_cells (table, heads, "note");
  gtk_box_append (box, GTK_WIDGET (table));
  return table;
}

static void
add_line (GtkGrid *table, GString *aloud, const BondBudgetLine *line, BondUnit unit)
{
  char mark = bond_locale_mark ();
  g_autofree char *name = bond_words_sentence (bond_budget_source_name (line->source));
  g_autofree char *part = g_strdup_printf (_ ("%s, %s"), name, bond_budget_source_shape (line->source));
  g_autofree char *stated = bond_budget_format_part (line->half_width, unit, mark, FALSE);
  g_autofree char *divisor = bond_budget_format_divisor (line->divisor, mark);
  g_autofree char *u = bond_budget_format_part (line->u, unit, mark, FALSE);
  g_autofree char *dof = bond_budget_format_dof (line->dof, mark);
  const char *cells[] = { part, stated, divisor, u, dof };

  add_cells (table, cells, NULL);
  g_string_append_printf (aloud, ", %s u %s", part, u);
}

/* ν_eff and k belong together: k follows from it. */
static void
add_result (GtkGrid *table, GString *aloud, const BondDetailsAbout *about, BondUnit unit)
{
  const BondMeasurement *m = budget_of (about->place);
  char mark = bond_locale_mark ();
  g_autofree char *combined = bond_budget_format_part (m->budget.u_c, unit, mark, FALSE);
  g_autofree char *dof = bond_budget_format_dof (m->budget.dof_eff, mark);
  g_autofree char *k = bond_budget_format_divisor (m->budget.k, mark);
  g_autofree char *expanded
      = bond_uncertainty_format (m->budget.u_nohm, unit, bond_words_decimals (about->survey, m, unit), mark);
  g_autofree char *title = g_strdup_printf (_ ("U with k = %s, rounded up"), k);
  const char *sum[] = { _ ("Combined, and ν effective"), NULL, NULL, combined, dof };
  const char *result[] = { title, NULL, NULL, expanded, NULL };

  add_cells (table, sum, NULL);
  add_cells (table, result, "strong");
  g_string_append_printf (aloud, ", %s %s, %s %s %s", sum[0], combined, title, expanded, bond_unit_symbol (unit));
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
    return g_strdup (_ ("No value counts, so there is no uncertainty."));
  if (m->qualifier != BOND_QUALIFIER_NONE)
    return g_strdup (_ ("No uncertainty: the result is no figure but a bound."));
  return g_strdup_printf (_ ("No uncertainty: %s has no usable accuracy or certificate figure for this range."),
                          instrument != NULL ? instrument->name : _ ("the instrument"));
}

static void
add_table (GtkBox *box, const BondDetailsAbout *about, BondUnit unit, const char *value)
{
  const BondMeasurement *m = budget_of (about->place);
  GtkGrid *table = new_table (box, unit);
  g_autofree char *begin = g_strdup_printf (_ ("Uncertainty of %s"), value);
  g_autoptr (GString) aloud = g_string_new (begin);

  for (int i = 0; i < m->budget.n_lines; i++)
    add_line (table, aloud, &m->budget.line[i], unit);
  add_result (table, aloud, about, unit);
  bond_details_part_speak (BOND_DETAILS_PART (gtk_widget_get_ancestor (GTK_WIDGET (box), BOND_TYPE_DETAILS_PART)),
                           aloud->str);
  if (!m->budget.placing_included)
    bond_detail_text (box, _ ("Probe placing not included: no study of it was made for this class."), "note");
  if (about->place->decides == NULL)
    bond_detail_text (box, _ ("This is of the last value; none counts now."), "note");
}

void
bond_details_budget_fill (GtkBox *box, GtkLabel *title, const BondDetailsAbout *about)
{
  const BondMeasurement *m = budget_of (about->place);
  BondUnit unit = bond_words_unit (about->place, BOND_UNIT_MILLIOHM);
  g_autofree char *value = m != NULL ? bond_words_result (about->survey, m, unit, TRUE) : NULL;
  g_autofree char *of = value != NULL ? g_strdup_printf (_ ("of %s"), value) : NULL;

  bond_details_clear (box);
  gtk_label_set_text (title, of != NULL ? of : "");
  if (m != NULL && m->budget.known && m->qualifier == BOND_QUALIFIER_NONE)
    add_table (box, about, unit, value);
  else
    {
      g_autofree char *words = missing_words (about);

      bond_detail_text (box, words, "quiet");
      bond_details_speak (box, NULL);
    }
}
