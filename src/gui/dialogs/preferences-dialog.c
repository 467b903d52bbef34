/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Rows bound to the taste; there is nothing to accept or to take back.  There is no
 * sound: the desktop's bell has neither a length nor a loudness that could tell
 * "recorded" from "stopped" in a hangar.
 */
#include "gui/dialogs/preferences-dialog.h"
#include "gui/big-targets.h"
#include "gui/dialog.h"
#include "gui/taste.h"
#include <glib/gi18n-lib.h>

static const char *const looks[] = { "system", "light", "dark" };
static const char *const look_names[] = { N_ ("Follow system"), N_ ("Light"), N_ ("Dark") };
static const char *const side_names[] = { N_ ("Right"), N_ ("Left") };

/* One row a tick. */
static const struct
{
  const char *property, *label;
} ticks[] = {
  { "high-contrast", N_ ("High contrast") },
  { "reduce-motion", N_ ("Reduce motion") },
  { "letters", N_ ("A single letter in the empty reading field acts") },
  { "lower-seen-through", N_ ("Lower view seen through from above: left wing at left") },
  { "big-targets", N_ ("Big targets (Ctrl+B)") },
};

static void
look_selected_cb (GtkDropDown *drop, GParamSpec *pspec, GApplication *application)
{
  guint selected = gtk_drop_down_get_selected (drop);

  if (selected < G_N_ELEMENTS (looks))
    g_action_group_activate_action (G_ACTION_GROUP (application), "look", g_variant_new_string (looks[selected]));
}

static void
side_selected_cb (GtkDropDown *drop)
{
  g_object_set (bond_taste_get (), "panel-left", gtk_drop_down_get_selected (drop) == 1, NULL);
}

static char *
format_mm (GtkScale *scale, double value, gpointer data)
{
  return g_strdup_printf (_ ("%d\302\240mm"), (int)(value + 0.5));
}

static GtkWidget *
new_size_scale (void)
{
  GtkWidget *scale
      = gtk_scale_new_with_range (GTK_ORIENTATION_HORIZONTAL, BOND_TARGET_MM_LEAST, BOND_TARGET_MM_MOST, 1);
  GtkAdjustment *adjustment = gtk_range_get_adjustment (GTK_RANGE (scale));

  g_object_bind_property (bond_taste_get (), "big-target-mm", adjustment, "value",
                          G_BINDING_SYNC_CREATE | G_BINDING_BIDIRECTIONAL);
  gtk_scale_set_draw_value (GTK_SCALE (scale), TRUE);
  gtk_scale_set_value_pos (GTK_SCALE (scale), GTK_POS_RIGHT);
  gtk_scale_set_format_value_func (GTK_SCALE (scale), format_mm, NULL, NULL);
  gtk_widget_set_hexpand (scale, TRUE);
  bond_name_widget (scale, _ ("Size of big targets in millimetres"));
  return scale;
}

static GtkDropDown *
add_choice (BondDialog *dialog, const char *label, const char *const *names, guint n, guint selected)
{
  const char *translated[4] = { NULL };

  for (guint i = 0; i < n; i++)
    translated[i] = _ (names[i]);
  return bond_dialog_add_choice (dialog, label, translated, selected);
}

static guint
look_now (GApplication *application)
{
  g_autoptr (GVariant) state = g_action_group_get_action_state (G_ACTION_GROUP (application), "look");

  for (guint i = 0; state != NULL && i < G_N_ELEMENTS (looks); i++)
    if (g_str_equal (g_variant_get_string (state, NULL), looks[i]))
      return i;
  return 0;
}

void
bond_preferences_dialog (GtkWindow *parent, GApplication *application)
{
  BondDialog *dialog = bond_dialog_new (parent, _ ("Preferences"), NULL, NULL, NULL, NULL);
  BondTaste *taste = bond_taste_get ();
  GtkDropDown *look, *side;

  look = add_choice (dialog, _ ("_Look"), look_names, G_N_ELEMENTS (look_names), look_now (application));
  g_signal_connect (look, "notify::selected", G_CALLBACK (look_selected_cb), application);
  side = add_choice (dialog, _ ("_Reading panel"), side_names, G_N_ELEMENTS (side_names),
                     bond_taste_is (taste, "panel-left"));
  g_signal_connect (side, "notify::selected", G_CALLBACK (side_selected_cb), NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (ticks); i++)
    {
      GtkCheckButton *check
          = bond_dialog_add_mnemonic_check (dialog, _ (ticks[i].label), bond_taste_is (taste, ticks[i].property));

      g_object_bind_property (taste, ticks[i].property, check, "active",
                              G_BINDING_SYNC_CREATE | G_BINDING_BIDIRECTIONAL);
    }
  bond_dialog_add_text (dialog, _ ("Size of big targets on this screen:"));
  bond_dialog_add_row (dialog, new_size_scale ());
  gtk_window_present (GTK_WINDOW (dialog));
}

static void
window_added_cb (GtkApplication *application, GtkWindow *window)
{
  bond_big_targets_follow (window);
}

static void
preferences_act (GSimpleAction *action, GVariant *parameter, gpointer application)
{
  bond_preferences_dialog (gtk_application_get_active_window (application), application);
}

void
bond_preferences_install (GtkApplication *application)
{
  static const GActionEntry entries[] = { { .name = "preferences", .activate = preferences_act } };
  g_autoptr (GPropertyAction) big = NULL;

  g_return_if_fail (GTK_IS_APPLICATION (application));
  big = g_property_action_new ("big-targets", bond_taste_get (), "big-targets");
  g_action_map_add_action (G_ACTION_MAP (application), G_ACTION (big));
  g_action_map_add_action_entries (G_ACTION_MAP (application), entries, G_N_ELEMENTS (entries), application);
  g_signal_connect (application, "window-added", G_CALLBACK (window_added_cb), NULL);
  bond_taste_apply (bond_taste_get ());
}
