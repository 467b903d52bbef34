/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * GTK 4.8 does not follow the desktop's colour scheme by itself: it is asked from
 * the settings portal, with a short time-out, and never waited for.
 */
#include "gui/look.h"
#include "gui/settings.h"
#include <gio/gio.h>

#define PORTAL_TIMEOUT_MS 500
#define PORTAL_DARK 1

static const char *const looks[] = { "system", "light", "dark" };

static const char *
known (const char *look)
{
  for (gsize i = 0; i < G_N_ELEMENTS (looks); i++)
    if (g_strcmp0 (look, looks[i]) == 0)
      return looks[i];
  return looks[0];
}

static void
portal_cb (GObject *bus, GAsyncResult *result, gpointer data)
{
  g_autoptr (GVariant) reply = g_dbus_connection_call_finish (G_DBUS_CONNECTION (bus), result, NULL);
  g_autoptr (GVariant) outer = NULL;
  g_autoptr (GVariant) value = NULL;

  if (reply == NULL)
    return; /* no portal: GTK's own default stays */
  g_variant_get (reply, "(v)", &outer);
  value = g_variant_is_of_type (outer, G_VARIANT_TYPE_VARIANT) ? g_variant_get_variant (outer) : g_variant_ref (outer);
  if (g_variant_is_of_type (value, G_VARIANT_TYPE_UINT32))
    g_object_set (gtk_settings_get_default (), "gtk-application-prefer-dark-theme",
                  g_variant_get_uint32 (value) == PORTAL_DARK, NULL);
}

static void
bus_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (GDBusConnection) bus = g_bus_get_finish (result, NULL);

  if (bus != NULL)
    g_dbus_connection_call (
        bus, "org.freedesktop.portal.Desktop", "/org/freedesktop/portal/desktop", "org.freedesktop.portal.Settings",
        "Read", g_variant_new ("(ss)", "org.freedesktop.appearance", "color-scheme"), G_VARIANT_TYPE ("(v)"),
        G_DBUS_CALL_FLAGS_NO_AUTO_START, PORTAL_TIMEOUT_MS, NULL, portal_cb, NULL);
}

static void
apply (const char *look)
{
  GtkSettings *settings = gtk_settings_get_default ();

  if (settings == NULL)
    return;
  if (g_str_equal (look, "system"))
    {
      gtk_settings_reset_property (settings, "gtk-application-prefer-dark-theme");
      g_bus_get (G_BUS_TYPE_SESSION, NULL, bus_cb, NULL);
      return;
    }
  g_object_set (settings, "gtk-application-prefer-dark-theme", g_str_equal (look, "dark"), NULL);
}

const char *
bond_look_start (void)
{
  g_autoptr (GSettings) settings = bond_settings_open ();
  g_autofree char *kept = settings != NULL ? g_settings_get_string (settings, "look") : NULL;
  const char *look = known (kept);

  apply (look);
  return look;
}

void
bond_look_choose (const char *look)
{
  g_autoptr (GSettings) settings = bond_settings_open ();

  apply (known (look));
  if (settings != NULL)
    g_settings_set_string (settings, "look", known (look));
}
