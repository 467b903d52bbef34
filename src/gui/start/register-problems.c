/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A file of a register that cannot be used is passed over when the registers are
 * read, for one bad file must not take the others away; but a meter or a limit set
 * that is missing without a word would be looked for in vain.  So the page of that
 * register says which file, which line and why.
 */
#include "gui/start/register-private.h"
#include <glib/gi18n-lib.h>

static gboolean
stands_in (const BondProblem *problem, const char *folder)
{
  g_autofree char *path = g_path_get_dirname (problem->file != NULL ? problem->file : "");
  g_autofree char *name = g_path_get_basename (path);
  g_autofree char *own = g_path_get_basename (problem->file != NULL ? problem->file : "");

  return g_str_equal (name, folder) || g_str_equal (own, folder);
}

GtkWidget *
bond_register_problems_new (BondApplication *application, const char *folder)
{
  GPtrArray *problems;
  g_autoptr (GString) lines = g_string_new (NULL);
  g_autofree char *text = NULL;
  GtkWidget *label;
  guint n = 0;

  g_return_val_if_fail (BOND_IS_APPLICATION (application) && folder != NULL, NULL);
  problems = bond_application_get_register_problems (application);
  for (guint i = 0; i < problems->len; i++)
    if (stands_in (problems->pdata[i], folder))
      {
        g_autofree char *line = bond_problem_to_string (problems->pdata[i]);

        g_string_append_printf (lines, "\n%s", line);
        n++;
      }
  text = g_strdup_printf (ngettext ("%u thing in this register could not be read. Nothing was changed on disk; put it "
                                    "right and start Bondwright again.%s",
                                    "%u things in this register could not be read. Nothing was changed on disk; put "
                                    "them right and start Bondwright again.%s",
                                    n),
                          n, lines->str);
  label = bond_detail_label (text, "band");
  gtk_widget_add_css_class (label, "guard");
  gtk_widget_set_visible (label, n > 0);
  return label;
}
