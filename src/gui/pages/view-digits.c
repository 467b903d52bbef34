/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Puts a digit behind the name of a view, in the text and in what is read aloud.
 */
#include "gui/pages/view-digits.h"
#include "gui/dialog.h"
#include <glib/gi18n-lib.h>

#define VIEW_KEY "bond-view"
#define NAME_KEY "bond-view-name"

void
bond_view_digits_prepare (GtkWidget *button, const char *view, const char *name)
{
  g_return_if_fail (GTK_IS_BUTTON (button) && view != NULL && name != NULL);

  g_object_set_data_full (G_OBJECT (button), VIEW_KEY, g_strdup (view), g_free);
  g_object_set_data_full (G_OBJECT (button), NAME_KEY, g_strdup (name), g_free);
}

/* The number of the first point that is best seen in @view, 0 = none. */
static guint
digit_for (BondDiagram *diagram, const char *view, BondPoint *const *points, guint n_points)
{
  guint i;

  if (g_strcmp0 (view, bond_diagram_get_view (diagram)) == 0)
    return 0;
  for (i = 0; i < n_points; i++)
    if (g_strcmp0 (bond_diagram_view_for (diagram, points[i]), view) == 0)
      return i + 1;
  return 0;
}

/* The number of the first point that is best seen in a view that is neither a main one nor the one in sight, 0 = none.
 */
static guint
digit_for_others (BondDiagram *diagram, const BondAirframe *airframe, BondPoint *const *points, guint n_points)
{
  guint i;

  for (i = 0; i < n_points; i++)
    {
      const char *id = bond_diagram_view_for (diagram, points[i]);
      const BondView *view = id != NULL ? bond_airframe_find_view (airframe, id) : NULL;

      if (view != NULL && !bond_view_is_main (view) && g_strcmp0 (id, bond_diagram_get_view (diagram)) != 0)
        return i + 1;
    }
  return 0;
}

static void
show_digit (GtkWidget *button, guint digit)
{
  const char *name = g_object_get_data (G_OBJECT (button), NAME_KEY);
  GtkWidget *label = gtk_button_get_child (GTK_BUTTON (button));
  g_autofree char *aloud = NULL;
  g_autofree char *markup = NULL;

  if (digit == 0)
    {
      gtk_label_set_text (GTK_LABEL (label), name);
      bond_name_widget (button, name);
      return;
    }
  markup = g_markup_printf_escaped ("%s <b>%u</b>", name, digit);
  aloud = g_strdup_printf (_ ("%s, point %u of the walk is there"), name, digit);
  gtk_label_set_markup (GTK_LABEL (label), markup);
  bond_name_widget (button, aloud);
}

void
bond_view_digits_show (GtkWidget *box, BondDiagram *diagram, BondPoint *const *points, guint n_points)
{
  GtkWidget *button;

  g_return_if_fail (GTK_IS_WIDGET (box) && BOND_IS_DIAGRAM (diagram));

  for (button = gtk_widget_get_first_child (box); button != NULL; button = gtk_widget_get_next_sibling (button))
    {
      const char *view = g_object_get_data (G_OBJECT (button), VIEW_KEY);

      if (view != NULL && GTK_IS_LABEL (gtk_button_get_child (GTK_BUTTON (button))))
        show_digit (button, digit_for (diagram, view, points, n_points));
    }
}

void
bond_view_digits_show_on_menu (GtkMenuButton *button, const char *name, BondDiagram *diagram,
                               const BondAirframe *airframe, BondPoint *const *points, guint n_points)
{
  guint digit;
  g_autofree char *text = NULL;
  g_autofree char *aloud = NULL;

  g_return_if_fail (GTK_IS_MENU_BUTTON (button) && name != NULL && BOND_IS_DIAGRAM (diagram));

  digit = airframe != NULL ? digit_for_others (diagram, airframe, points, n_points) : 0;
  text = digit > 0 ? g_strdup_printf ("%s %u", name, digit) : g_strdup (name);
  aloud = digit > 0 ? g_strdup_printf (_ ("%s, point %u of the walk is there"), name, digit) : g_strdup (name);
  gtk_menu_button_set_label (button, text);
  bond_name_widget (GTK_WIDGET (button), aloud);
}
