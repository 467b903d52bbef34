/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The walk of the widget tree behind reach.h.  GTK's test backend is asked for names:
 * it has to be in force (GTK_A11Y=test), as it is in all tests of the window.
 */
#include "reach.h"

#define ROUND_MAX 5000
#define NOT_A_NAME "\001"

/* What the backend prints of a text is the text in quotes. */
static char *
unquoted (const char *text)
{
  gsize length = text != NULL ? strlen (text) : 0;

  return length >= 2 && text[0] == '"' ? g_strndup (text + 1, length - 2) : g_strdup (text);
}

static char *
own_name (GtkWidget *widget)
{
  GtkAccessible *accessible = GTK_ACCESSIBLE (widget);
  g_autofree char *shown = NULL;

  if (gtk_test_accessible_has_relation (accessible, GTK_ACCESSIBLE_RELATION_LABELLED_BY))
    return g_strdup ("(labelled by another widget)");
  if (!gtk_test_accessible_has_property (accessible, GTK_ACCESSIBLE_PROPERTY_LABEL))
    return NULL;
  shown = gtk_test_accessible_check_property (accessible, GTK_ACCESSIBLE_PROPERTY_LABEL, NOT_A_NAME);
  return unquoted (shown);
}

/* The parts GTK makes an entry, a drop-down or a menu button of are read by the name of the whole. */
static gboolean
is_whole (GtkWidget *widget)
{
  return GTK_IS_EDITABLE (widget) || GTK_IS_DROP_DOWN (widget) || GTK_IS_MENU_BUTTON (widget);
}

char *
reach_name (GtkWidget *widget)
{
  char *name = own_name (widget);
  GtkWidget *parent = gtk_widget_get_parent (widget);

  if (name != NULL && *name != '\0')
    return name;
  g_free (name);
  if (GTK_IS_LABEL (widget) && *gtk_label_get_text (GTK_LABEL (widget)) != '\0')
    return g_strdup (gtk_label_get_text (GTK_LABEL (widget)));
  for (int up = 0; parent != NULL && up < 2; up++, parent = gtk_widget_get_parent (parent))
    if (is_whole (parent))
      return reach_name (parent);
  return NULL;
}

static GHashTable *
go_round (GtkWindow *window)
{
  GHashTable *visited = g_hash_table_new (NULL, NULL);

  gtk_window_set_focus (window, NULL);
  for (int i = 0; i < ROUND_MAX; i++)
    {
      GtkWidget *focus;

      if (!gtk_widget_child_focus (GTK_WIDGET (window), GTK_DIR_TAB_FORWARD))
        break;
      focus = gtk_window_get_focus (window);
      if (focus == NULL || !g_hash_table_add (visited, focus))
        break;
    }
  return visited;
}

static gboolean
goes_by_arrows (GtkWidget *widget)
{
  GtkWidget *parent = gtk_widget_get_parent (widget);

  return GTK_IS_CHECK_BUTTON (widget) || GTK_IS_LIST_BOX_ROW (widget) || (parent != NULL && GTK_IS_LIST_VIEW (parent))
         || (parent != NULL && GTK_IS_COLUMN_VIEW (gtk_widget_get_parent (parent)));
}

static gboolean
is_reached (GtkWidget *widget, GHashTable *visited)
{
  GtkWidget *sibling;

  if (g_hash_table_contains (visited, widget))
    return TRUE;
  /* What only holds others hands the focus on to them. */
  for (sibling = gtk_widget_get_first_child (widget); sibling != NULL; sibling = gtk_widget_get_next_sibling (sibling))
    if (is_reached (sibling, visited))
      return TRUE;
  if (!goes_by_arrows (widget))
    return FALSE;
  for (sibling = gtk_widget_get_first_child (gtk_widget_get_parent (widget)); sibling != NULL;
       sibling = gtk_widget_get_next_sibling (sibling))
    if (g_hash_table_contains (visited, sibling))
      return TRUE;
  return FALSE;
}

static void
look_at (GtkWidget *widget, GHashTable *visited, GPtrArray *faults)
{
  /* Closing and sizing a window is the window manager's, and has its keys there. */
  if (!gtk_widget_get_mapped (widget) || GTK_IS_WINDOW_CONTROLS (widget)
      || (!gtk_widget_get_can_focus (widget) && !GTK_IS_LIST_BOX_ROW (widget)))
    return;
  if ((gtk_widget_get_focusable (widget) || is_whole (widget)) && gtk_widget_is_sensitive (widget)
      && !GTK_IS_WINDOW (widget))
    {
      g_autofree char *name = reach_name (widget);

      if (name == NULL)
        g_ptr_array_add (faults, g_strdup_printf ("no name: %s in %s", G_OBJECT_TYPE_NAME (widget),
                                                  G_OBJECT_TYPE_NAME (gtk_widget_get_parent (widget))));
      if (!is_reached (widget, visited))
        g_ptr_array_add (faults, g_strdup_printf ("not reached by keys: %s “%s”", G_OBJECT_TYPE_NAME (widget),
                                                  name != NULL ? name : ""));
    }
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL && !is_whole (widget);
       child = gtk_widget_get_next_sibling (child))
    look_at (child, visited, faults);
}

GPtrArray *
reach_faults (GtkWindow *window)
{
  GPtrArray *faults = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GHashTable) visited = go_round (window);

  look_at (GTK_WIDGET (window), visited, faults);
  return faults;
}

void
reach_assert (GtkWindow *window)
{
  g_autoptr (GPtrArray) faults = reach_faults (window);

  for (guint i = 0; i < faults->len; i++)
    g_test_message ("%s: %s", gtk_window_get_title (window), (const char *)g_ptr_array_index (faults, i));
  g_assert_cmpuint (faults->len, ==, 0);
}
