/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Finds which of the widgets has the focus now, lets the focus move on inside it,
 * and goes on with the next that takes it.
 */
#include "gui/focus-order.h"

static gboolean
can_take (GtkWidget *widget)
{
  return widget != NULL && gtk_widget_get_mapped (widget) && gtk_widget_is_sensitive (widget);
}

gboolean
bond_focus_in_order (GtkWidget *widget, GtkWidget *const *order, guint n, GtkDirectionType direction)
{
  GtkRoot *root;
  GtkWidget *focus;
  gboolean back = direction == GTK_DIR_TAB_BACKWARD;
  int at = back ? (int)n - 1 : 0;

  g_return_val_if_fail (GTK_IS_WIDGET (widget), FALSE);
  if (direction != GTK_DIR_TAB_FORWARD && !back)
    return FALSE;
  root = gtk_widget_get_root (widget);
  focus = root != NULL ? gtk_root_get_focus (root) : NULL;
  for (guint i = 0; focus != NULL && i < n; i++)
    if (order[i] != NULL && (focus == order[i] || gtk_widget_is_ancestor (focus, order[i])))
      at = (int)i;
  for (; at >= 0 && at < (int)n; at += back ? -1 : 1)
    if (can_take (order[at]) && gtk_widget_child_focus (order[at], direction))
      return TRUE;
  return FALSE;
}
