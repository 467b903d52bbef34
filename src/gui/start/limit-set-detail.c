/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The register of limit sets: every row as it is published, with its relation, both
 * tiers, and where it comes from.
 */
#include "gui/start/register-page.h"
#include "gui/start/register-private.h"
#include "gui/words.h"
#include <glib/gi18n-lib.h>

static char *
strict_words (const BondLimitRow *row)
{
  return row->has_strict ? bond_bounds_format (&row->strict, bond_locale_mark (), TRUE) : g_strdup (_ ("the same"));
}

static char *
covers_words (const BondLimitRow *row)
{
  GString *text = g_string_new (row->covers != NULL ? row->covers : "");

  g_string_append_printf (text, "%s%s", text->len > 0 ? "\n" : "",
                          row->klass == BOND_CLASS_ANY ? _ ("any class") : bond_class_name ((BondClass)row->klass));
  g_string_append_printf (text, ", %s", bond_method_name (row->method));
  if (row->method_volts > 0)
    g_string_append_printf (text, ", %d\u00a0V", row->method_volts);
  if (row->scope == BOND_SCOPE_PATH)
    g_string_append (text, _ (", whole path"));
  if (row->pair)
    g_string_append (text, _ (", forward and reverse"));
  return g_string_free (text, FALSE);
}

static char *
source_words (const BondLimitRow *row, const BondLimitSet *set)
{
  g_autofree char *source = bond_words_source (row, set);

  if (row->verified && row->checked_by != NULL)
    return g_strdup_printf (_ ("%s\nchecked by %s"), source, row->checked_by);
  return g_strdup (source);
}

static void
add_row (GtkWidget *table, const BondLimitRow *row, const BondLimitSet *set)
{
  gboolean measured = bond_bounds_any (&row->in_service);
  g_autofree char *in_service = measured ? bond_bounds_format (&row->in_service, bond_locale_mark (), TRUE) : NULL;
  g_autofree char *strict = measured ? strict_words (row) : NULL;
  g_autofree char *covers = covers_words (row);
  g_autofree char *source = source_words (row, set);
  const char *cells[] = { row->code, covers, in_service, strict, source };

  bond_detail_row (table, cells);
}

static void
limit_set_fill (BondRegisterPage *page, GtkBox *box, gconstpointer object)
{
  const BondLimitSet *set = object;
  const char *columns[]
      = { _ ("Row"), _ ("+Covers"), _ ("#In service"), _ ("#New, opened or reworked"), _ ("+Source"), NULL };
  g_autofree char *revision = g_strdup_printf (_ ("revision %d"), set->revision);
  guint unverified = 0;
  GtkWidget *table;

  for (guint i = 0; i < set->rows->len; i++)
    unverified += !((BondLimitRow *)set->rows->pdata[i])->verified;
  bond_detail_heading (box, set->name);
  bond_detail_text (box, revision, "quiet");
  if (set->invented)
    bond_detail_text (box, _ ("Invented example data. Never for a real aircraft."), "guard");
  bond_detail_text (box, set->note, NULL);
  if (!set->enabled)
    bond_detail_text (
        box,
        _ ("A published set, switched off until it is chosen. Whoever chooses it for a survey states that "
           "no maker’s data applies to the points that use it."),
        "strong");
  if (unverified > 0)
    {
      g_autofree char *words
          = g_strdup_printf (ngettext ("%u of %u row has not been verified against its source.",
                                       "%u of %u rows have not been verified against their source.", set->rows->len),
                             unverified, set->rows->len);

      bond_detail_text (box, words, "guard");
    }
  table = bond_detail_table (box, columns);
  for (guint i = 0; i < set->rows->len; i++)
    add_row (table, set->rows->pdata[i], set);
}

static char *
limit_set_first (gconstpointer object)
{
  return g_strdup (((const BondLimitSet *)object)->name);
}

static char *
limit_set_second (gconstpointer object)
{
  const BondLimitSet *set = object;
  g_autofree char *rows = g_strdup_printf (ngettext ("%u row", "%u rows", set->rows->len), set->rows->len);

  return g_strdup_printf ("%s, %s", rows,
                          set->invented   ? _ ("invented example data")
                          : !set->enabled ? _ ("published, switched off")
                                          : _ ("in use"));
}

GtkWidget *
bond_limits_page_new (BondApplication *application)
{
  static const BondRegisterInfo info = {
    .what = BOND_ADOPT_LIMIT_SET,
    .folder = "limits",
    .title = N_ ("Limit Sets"),
    .empty = N_ ("No limit set in the library. Put its file into the folder “limits” of the library."),
    .first = limit_set_first,
    .second = limit_set_second,
    .fill = limit_set_fill,
  };

  return bond_register_page_new (application, &info);
}
