/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The limits of a point as they were published, and where they come from; the places
 * of a group.
 */
#include "gui/details/details-parts.h"
#include "gui/pages/pinned-popover.h"
#include "gui/start/detail.h"
#include "gui/words.h"
#include "report/act-words.h"
#include "report/figures.h"
#include <glib/gi18n-lib.h>

/* "≤ 2.5 mΩ in service; ≤ 1.5 mΩ new, opened or reworked (in force)" */
static char *
bounds_words (const BondLimitRow *row, BondCondition now)
{
  g_autofree char *usual = bond_bounds_format (&row->in_service, bond_locale_mark (), TRUE);
  g_autofree char *strict = NULL;
  gboolean strict_now = now != BOND_CONDITION_UNDISTURBED;

  if (!bond_bounds_any (&row->in_service))
    return g_strdup (bond_method_name (row->method));
  if (!row->has_strict)
    return g_steal_pointer (&usual);
  strict = bond_bounds_format (&row->strict, bond_locale_mark (), TRUE);
  return g_strdup_printf (strict_now ? _ ("%s in service; %s new, opened or reworked, which is in force")
                                     : _ ("%s in service, which is in force; %s new, opened or reworked"),
                          usual, strict);
}

static char *
asks_words (const BondLimitRow *row)
{
  GString *text = g_string_new (bond_method_name (row->method));

  if (row->method_volts > 0)
    g_string_append_printf (text, " %d\u00a0V", row->method_volts);
  bond_act_append (text, row->pair ? _ ("forward and reverse") : NULL);
  if (row->connectors != BOND_CONNECTORS_ANY)
    bond_act_append (text, bond_connectors_words (row->connectors));
  if (row->mounting != BOND_MOUNTING_ANY)
    bond_act_append (text, bond_mounting_words (row->mounting));
  bond_act_append (text, row->scope == BOND_SCOPE_PATH ? _ ("the whole path") : NULL);
  return g_string_free (text, FALSE);
}

static char *
set_words (const BondLimitSet *set)
{
  if (set == NULL)
    return g_strdup (_ ("a row of this point alone"));
  return g_strdup_printf (set->invented ? _ ("%s, revision %d, invented") : _ ("%s, revision %d"), set->name,
                          set->revision);
}

static char *
title_words (const BondDetailsAbout *about, const BondPlaceResult *row, gboolean governs, gboolean several)
{
  const char *name = row->row_name != NULL ? row->row_name : row->row != NULL ? row->row->code : _ ("No limit");
  const BondMeasurement *m = row->decides != NULL ? row->decides : row->last;
  GString *text = g_string_new (name);

  if (several && governs)
    bond_act_append (text, _ ("governs"));
  if (several && m != NULL)
    bond_act_append (text, bond_figure_verdict (m, bond_survey_get_rule (about->survey)));
  return g_string_free (text, FALSE);
}

static void
add_row (GtkBox *box, const BondDetailsAbout *about, const BondPlaceResult *row, gboolean governs, gboolean several)
{
  g_autofree char *title = title_words (about, row, governs, several);
  g_autofree char *bounds = NULL;
  g_autofree char *asks = NULL;
  g_autofree char *set = NULL;
  g_autofree char *source = NULL;

  bond_detail_text (box, title, governs ? "strong" : NULL);
  if (row->row == NULL)
    {
      bond_detail_text (box,
                        row->row_name != NULL
                            ? _ ("No limit set of this survey holds this row: readings get no verdict.")
                            : _ ("No limit applies: readings are recorded without a verdict."),
                        "quiet");
      return;
    }
  bounds = bounds_words (row->row, row->tier);
  asks = asks_words (row->row);
  set = set_words (row->set);
  source = bond_words_source (row->row, row->set);
  bond_detail_pair (box, _ ("Limit"), bounds);
  bond_detail_pair (box, _ ("Asks"), asks);
  bond_detail_pair (box, _ ("Covers"), row->row->covers);
  bond_detail_pair (box, _ ("Limit set"), set);
  bond_detail_pair (box, _ ("Source"), source);
  bond_detail_pair (box, _ ("Checked by"), row->row->checked_by);
  bond_detail_pair (box, _ ("Note"), row->row->note);
}

static void
add_metal (GtkBox *box, const BondDetailsAbout *about)
{
  BondQuantity metal;
  g_autofree char *words = NULL;

  if (!bond_conductor_resistance (&bond_point_get_spec (about->point)->conductor, &metal))
    return;
  words = bond_words_quantity (&metal, bond_words_unit (about->place, bond_ohm_best_unit (metal.nohm)), 3);
  bond_detail_pair (box, _ ("Metal alone"), words);
}

void
bond_details_limits_fill (GtkBox *box, const BondDetailsAbout *about)
{
  const BondPointSpec *spec = bond_point_get_spec (about->point);
  guint n = bond_place_result_n_rows (about->place);

  bond_details_clear (box);
  for (guint i = 0; i < n; i++)
    add_row (box, about, bond_place_result_nth_row (about->place, i), i == 0, n > 1);
  bond_detail_pair (box, _ ("Decision"), bond_rule_name (bond_survey_get_rule (about->survey)));
  bond_detail_pair (box, _ ("Purpose"), spec->why);
  bond_detail_pair (box, _ ("Watch for"), spec->watch);
  bond_detail_pair (box, _ ("Basis"), spec->basis);
  add_metal (box, about);
}

/* --- places --- */

static void
add_place (GtkWidget *table, const BondDetailsAbout *about, const BondPlaceResult *place)
{
  const BondMeasurement *m = place->decides != NULL ? place->decides : place->last;
  g_autofree char *state = bond_figure_state (place, bond_survey_get_rule (about->survey));
  g_autofree char *value = m != NULL && m->mean.count > 0
                               ? bond_words_result (about->survey, m, bond_words_unit (place, BOND_UNIT_MILLIOHM), TRUE)
                               : NULL;
  g_autofree char *when = m != NULL ? bond_words_when (about->survey, m->at) : NULL;
  const char *label = place->label != NULL ? place->label : place->place != NULL ? place->place : _ ("whole point");
  const char *cells[] = { label, value, state, when };

  bond_detail_row (table, cells);
}

gboolean
bond_details_places_fill (GtkBox *box, const BondDetailsAbout *about)
{
  const char *columns[] = { _ ("Place"), "#", "+", _ ("when"), NULL };
  g_autofree char *result = g_strconcat ("#", _ ("Result"), NULL);
  g_autofree char *state = g_strconcat ("+", _ ("State"), NULL);
  GPtrArray *places = bond_point_get_places (about->point);
  GtkWidget *table;

  bond_details_clear (box);
  if (places->len < 2)
    return FALSE;
  columns[1] = result;
  columns[2] = state;
  table = bond_detail_table (box, columns);
  for (guint i = 0; i < places->len; i++)
    add_place (table, about, g_ptr_array_index (places, i));
  return TRUE;
}
