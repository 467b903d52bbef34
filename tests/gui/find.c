/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One walk through the tree, and the questions it is asked.
 */
#include "find.h"
#include "reach.h"

GtkWidget *
find_widget (GtkWidget *root, FindIs is, const char *what)
{
  if (is (root, what))
    return root;
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL; child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = find_widget (child, is, what);

      if (found != NULL)
        return found;
    }
  return NULL;
}

static gboolean
stands_beside (GtkWidget *widget, const char *what)
{
  return GTK_IS_LABEL (widget) && gtk_label_get_mnemonic_widget (GTK_LABEL (widget)) != NULL
         && g_strcmp0 (gtk_label_get_text (GTK_LABEL (widget)), what) == 0;
}

GtkWidget *
find_beside (GtkWidget *root, const char *label)
{
  GtkWidget *found = find_widget (root, stands_beside, label);

  return found != NULL ? gtk_label_get_mnemonic_widget (GTK_LABEL (found)) : NULL;
}

static gboolean
is_named (GtkWidget *widget, const char *what)
{
  g_autofree char *name = GTK_IS_ENTRY (widget) ? reach_name (widget) : NULL;

  return g_strcmp0 (name, what) == 0;
}

GtkWidget *
find_named (GtkWidget *root, const char *name)
{
  return find_widget (root, is_named, name);
}
