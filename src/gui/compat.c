/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What differs between GTK 4.8 and later versions, looked up at run time so that
 * one binary serves all of them and no newer call is ever linked.
 */
#include "gui/compat.h"

#include <dlfcn.h>

/* gtk_accessible_announce() as GTK 4.14 declares it; the priority is GTK_ACCESSIBLE_ANNOUNCEMENT_PRIORITY_MEDIUM. */
typedef void (*Announce) (GtkAccessible *self, const char *message, int priority);
#define ANNOUNCE_PRIORITY_MEDIUM 1

static Announce
find_announce (void)
{
  void *program = dlopen (NULL, RTLD_LAZY);
  Announce announce = NULL;

  if (program == NULL)
    return NULL;
  *(void **)&announce = dlsym (program, "gtk_accessible_announce");
  dlclose (program);
  return announce;
}

/**
 * bond_list_scroll_to:
 * @list: a GtkListView, or a GtkColumnView, whose rows live in its last child
 *
 * GTK 4.8 has no scroll_to(); the action behind the list's own keys does the same.
 */
void
bond_list_scroll_to (GtkWidget *list, guint position)
{
  g_return_if_fail (GTK_IS_WIDGET (list));

  if (GTK_IS_COLUMN_VIEW (list))
    list = gtk_widget_get_last_child (list);
  if (list != NULL)
    gtk_widget_activate_action (list, "list.scroll-to-item", "u", position);
}

/**
 * bond_announce:
 *
 * Without announce(), a changed description of the focused widget is what a screen reader speaks; it drops a text equal
 * to the last, so the caller begins every sentence with the point's number.
 */
void
bond_announce (GtkWidget *widget, const char *text)
{
  Announce announce;

  g_return_if_fail (GTK_IS_WIDGET (widget));
  g_return_if_fail (text != NULL);

  announce = find_announce ();
  if (announce != NULL)
    announce (GTK_ACCESSIBLE (widget), text, ANNOUNCE_PRIORITY_MEDIUM);
  else
    gtk_accessible_update_property (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, text, -1);
}
