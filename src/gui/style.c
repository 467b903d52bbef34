/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Chooses the sheet of colours that fits the theme in force and swaps it when the
 * theme changes.  GTK 4.8 has named colours but no variables and no media queries,
 * hence one small sheet a look, and one large sheet that only uses their names.
 */
#include "gui/style.h"

#define SHEETS "/io/github/bondwright/Bondwright/ui/"
#define KEY "bond-style"

/* Made by the resource compiler; asking for it keeps the resource in the program, which nothing else refers to. */
GResource *bond_ui_get_resource (void);

typedef struct
{
  const char *sheet;
  const BondInks *(*inks) (void);
} LookInfo;

/* High contrast: one ink, everything told by shape. */
#define ALL(v)                                                                                                         \
  {                                                                                                                    \
    v, v, v                                                                                                            \
  }
static const BondInks contrast_light = {
  .text = ALL (0),
  .quiet = ALL (0),
  .todo = ALL (0),
  .pass = ALL (0),
  .guard = ALL (0),
  .fail = ALL (0),
  .history = ALL (0),
  .accent = { 0.0, 0.2, 0.55 },
  .paper = ALL (1),
  .zone_tint = { ALL (1), ALL (0.93) },
  .line = ALL (0.35),
  .outline = ALL (0),
};
static const BondInks contrast_dark = {
  .text = ALL (1),
  .quiet = ALL (1),
  .todo = ALL (1),
  .pass = ALL (1),
  .guard = ALL (1),
  .fail = ALL (1),
  .history = ALL (1),
  .accent = { 0.6, 0.8, 1.0 },
  .paper = ALL (0),
  .zone_tint = { ALL (0), ALL (0.12) },
  .line = ALL (0.65),
  .outline = ALL (1),
};

static const BondInks *
contrast_light_inks (void)
{
  return &contrast_light;
}

static const BondInks *
contrast_dark_inks (void)
{
  return &contrast_dark;
}

static const LookInfo looks[BOND_N_LOOKS] = {
  [BOND_LOOK_LIGHT] = { SHEETS "style-light.css", bond_inks_light },
  [BOND_LOOK_DARK] = { SHEETS "style-dark.css", bond_inks_dark },
  [BOND_LOOK_CONTRAST] = { SHEETS "style-contrast.css", contrast_light_inks },
  [BOND_LOOK_CONTRAST_DARK] = { SHEETS "style-contrast-dark.css", contrast_dark_inks },
};

/* Theme names carry their variant as a word: "Default-hc-dark", "HighContrastInverse", "Adwaita-dark". */
static gboolean
says_any (const char *name, const char *first, const char *second)
{
  g_autofree char *lower = g_ascii_strdown (name, -1);

  return strstr (lower, first) != NULL || strstr (lower, second) != NULL;
}

static void
load_colours (GtkCssProvider *colours, GtkSettings *settings)
{
  gtk_css_provider_load_from_resource (colours, looks[bond_look_of (settings)].sheet);
}

static void
theme_changed_cb (GtkSettings *settings, GParamSpec *pspec, gpointer colours)
{
  load_colours (GTK_CSS_PROVIDER (colours), settings);
}

/* Calls @callback with @object as its last argument when the theme changes, as long as @object lives. */
static void
follow_theme (GtkSettings *settings, GCallback callback, gpointer object, GConnectFlags flags)
{
  g_signal_connect_object (settings, "notify::gtk-theme-name", callback, object, flags);
  g_signal_connect_object (settings, "notify::gtk-application-prefer-dark-theme", callback, object, flags);
}

BondLook
bond_look_from (const char *theme, gboolean prefer_dark, const char *environment)
{
  gboolean forced = environment != NULL && environment[0] != '\0';
  const char *name = forced ? environment : (theme != NULL ? theme : "");
  gboolean dark = (prefer_dark && !forced) || says_any (name, "dark", "inverse");
  gboolean contrast = says_any (name, "-hc", "highcontrast");

  if (contrast)
    return dark ? BOND_LOOK_CONTRAST_DARK : BOND_LOOK_CONTRAST;
  return dark ? BOND_LOOK_DARK : BOND_LOOK_LIGHT;
}

BondLook
bond_look_of (GtkSettings *settings)
{
  g_autofree char *theme = NULL;
  gboolean prefer_dark = FALSE;

  g_return_val_if_fail (GTK_IS_SETTINGS (settings), BOND_LOOK_LIGHT);

  g_object_get (settings, "gtk-theme-name", &theme, "gtk-application-prefer-dark-theme", &prefer_dark, NULL);
  return bond_look_from (theme, prefer_dark, g_getenv ("GTK_THEME"));
}

const BondInks *
bond_look_inks (BondLook look)
{
  g_return_val_if_fail ((guint)look < BOND_N_LOOKS, bond_inks_light ());
  return looks[look].inks ();
}

const BondInks *
bond_style_inks (GtkWidget *widget)
{
  g_return_val_if_fail (GTK_IS_WIDGET (widget), bond_inks_light ());
  return bond_look_inks (bond_look_of (gtk_widget_get_settings (widget)));
}

void
bond_style_watch (GtkWidget *widget)
{
  g_return_if_fail (GTK_IS_WIDGET (widget));
  follow_theme (gtk_widget_get_settings (widget), G_CALLBACK (gtk_widget_queue_draw), widget, G_CONNECT_SWAPPED);
}

void
bond_style_attach (GdkDisplay *display)
{
  g_autoptr (GtkCssProvider) sheet = NULL;
  GtkCssProvider *colours;
  GtkSettings *settings;

  g_return_if_fail (GDK_IS_DISPLAY (display));

  if (g_object_get_data (G_OBJECT (display), KEY) != NULL)
    return;
  g_resources_register (bond_ui_get_resource ());
  settings = gtk_settings_get_for_display (display);
  colours = gtk_css_provider_new ();
  g_object_set_data_full (G_OBJECT (display), KEY, colours, g_object_unref);
  load_colours (colours, settings);
  follow_theme (settings, G_CALLBACK (theme_changed_cb), colours, 0);

  sheet = gtk_css_provider_new ();
  gtk_css_provider_load_from_resource (sheet, SHEETS "style.css");
  gtk_style_context_add_provider_for_display (display, GTK_STYLE_PROVIDER (colours),
                                              GTK_STYLE_PROVIDER_PRIORITY_APPLICATION);
  gtk_style_context_add_provider_for_display (display, GTK_STYLE_PROVIDER (sheet),
                                              GTK_STYLE_PROVIDER_PRIORITY_APPLICATION);
}
