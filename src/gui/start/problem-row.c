/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One file that needs a look: what is the matter with it, that nothing was done to
 * it, and the way on.  One table says all of it.
 */
#include "gui/start/rows-private.h"
#include "gui/words.h"
#include <glib/gi18n-lib.h>

typedef struct
{
  const char *label, *action;
} Act;

/* What is offered for each trouble; @drops: it may be taken off the list when only the list knows it. */
static const struct
{
  Act acts[2];
  gboolean drops;
} offers[] = {
  [BOND_TROUBLE_NONE] = { { { NULL, NULL } }, FALSE },
  [BOND_TROUBLE_MISSING] = { { { N_ ("Find…"), "surveys.find" } }, TRUE },
  [BOND_TROUBLE_NOT_OURS] = { { { NULL, NULL } }, TRUE },
  [BOND_TROUBLE_NEWER] = { { { NULL, NULL } }, TRUE },
  [BOND_TROUBLE_UNREADABLE] = { { { N_ ("What Can Be Done…"), "surveys.open" } }, TRUE },
  [BOND_TROUBLE_ALTERED] = { { { N_ ("Open Read-Only"), "surveys.look" } }, TRUE },
  [BOND_TROUBLE_COPY] = { { { N_ ("Open Read-Only"), "surveys.look" } }, TRUE },
  [BOND_TROUBLE_APART] = { { { N_ ("Open Read-Only"), "surveys.look" } }, TRUE },
  [BOND_TROUBLE_TAIL] = { { { N_ ("Open"), "surveys.open" } }, FALSE },
  [BOND_TROUBLE_LOCKED] = { { { N_ ("Open Read-Only"), "surveys.look" } }, FALSE },
  [BOND_TROUBLE_NO_WRITE]
  = { { { N_ ("Save Copy…"), "surveys.copy" }, { N_ ("Open Read-Only"), "surveys.look" } }, FALSE },
};

static char *
tail_words (const BondSurveySummary *summary, const char *name)
{
  g_autofree char *date = bond_words_date (summary->last_at);
  g_autofree char *clock = bond_words_clock (summary->last_at);

  if (summary->last_point == NULL)
    return g_strdup_printf (_ ("The last entry of %s was cut off while being written. It held no readings yet."), name);
  return g_strdup_printf (
      ngettext ("The last entry of %s was cut off while being written. %d reading is safe; it is %s "
                "on %s at %s.",
                "The last entry of %s was cut off while being written. %d readings are safe; the "
                "last is %s on %s at %s.",
                (gulong)summary->readings),
      name, summary->readings, summary->last_point, date, clock);
}

/* What the store says of a file begins with its whole path and the line; the row names the file already. */
static char *
without_path (const BondSurveySummary *summary)
{
  const char *text = summary->problem;
  const char *digits;
  gsize n;

  if (!g_str_has_prefix (text, summary->path))
    return g_strdup (text);
  digits = text + strlen (summary->path) + 1;
  n = strspn (digits, "0123456789");
  return n > 0 && digits[n] == ':' ? g_strdup_printf (_ ("line %.*s:%s"), (int)n, digits, digits + n + 1)
                                   : g_strdup (digits);
}

char *
bond_problem_words (const BondSurveySummary *summary)
{
  g_autofree char *name = g_path_get_basename (summary->path);
  g_autofree char *folder = g_path_get_dirname (summary->path);
  g_autofree char *rest = NULL;

  switch (summary->trouble)
    {
    case BOND_TROUBLE_MISSING:
      return g_strdup_printf (_ ("%s is not where it was. It was last seen in %s."), name, folder);
    case BOND_TROUBLE_NOT_OURS:
      return g_strdup_printf (_ ("%s is not a Bondwright survey. Nothing was opened."), name);
    case BOND_TROUBLE_TAIL:
      return tail_words (summary, name);
    case BOND_TROUBLE_LOCKED:
      return g_strdup_printf (_ ("%s is open for writing by %s. Until it is closed there it can only be read."), name,
                              summary->detail);
    case BOND_TROUBLE_NO_WRITE:
      return g_strdup_printf (_ ("The place of %s cannot be written to. Save a copy to take readings."), name);
    case BOND_TROUBLE_COPY:
    case BOND_TROUBLE_APART:
    case BOND_TROUBLE_ALTERED:
      return g_strdup_printf ("%s: %s", name, summary->problem);
    default:
      rest = without_path (summary);
      return g_strdup_printf ("%s: %s", name, rest);
    }
}

GtkWidget *
bond_problem_row_new (const BondSurveySummary *summary)
{
  g_autofree char *words = bond_problem_words (summary);
  g_autofree char *base = g_path_get_basename (summary->path);
  g_autofree char *search = g_strdup_printf ("%s %s", base, summary->registration != NULL ? summary->registration : "");
  GtkWidget *label = bond_start_label (words, NULL);
  GtkWidget *acts = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkWidget *parts[] = { label, acts };
  gboolean opens = g_strcmp0 (offers[summary->trouble].acts[0].action, "surveys.open") == 0;
  BondRowInfo info = { .path = summary->path,
                       .opens = opens,
                       .is_problem = TRUE,
                       .search = search,
                       .is_open = summary->problem == NULL && bond_survey_summary_is_open (summary),
                       .needs_look = TRUE,
                       .words = label };

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_NONE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_width_chars (GTK_LABEL (label), 24);
  gtk_widget_set_tooltip_text (label, summary->path);
  gtk_widget_set_hexpand (label, TRUE);
  for (gsize i = 0; i < G_N_ELEMENTS (offers[0].acts); i++)
    {
      const Act *act = &offers[summary->trouble].acts[i];

      if (act->label != NULL)
        gtk_box_append (GTK_BOX (acts), bond_rows_button (_ (act->label), act->action, summary->path, base));
    }
  if (summary->recent && offers[summary->trouble].drops)
    gtk_box_append (GTK_BOX (acts), bond_rows_button (_ ("Remove from List"), "surveys.forget", summary->path, base));
  return bond_rows_row (parts, G_N_ELEMENTS (parts), words, &info);
}
