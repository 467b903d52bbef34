/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The looks: which one a theme asks for, that every sheet of colours is whole, and
 * that its contrasts hold.  Contrast is the ratio of relative luminances of WCAG 2.2
 * (definitions, from memory): 4.5 for text (1.4.3), 3 for graphics (1.4.11).
 */
#include "gui/compat.h"
#include "gui/style.h"
#include "gui/widgets/mark-image.h"
#include "screen.h"

#include <math.h>

#define SHEETS "/io/github/bondwright/Bondwright/ui/"

static const char *const colour_sheets[BOND_N_LOOKS]
    = { "style-light.css", "style-dark.css", "style-contrast.css", "style-contrast-dark.css" };

static char *
sheet_text (const char *name)
{
  g_autofree char *path = g_strconcat (SHEETS, name, NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) bytes = g_resources_lookup_data (path, G_RESOURCE_LOOKUP_FLAGS_NONE, &error);

  g_assert_no_error (error);
  return g_strndup (g_bytes_get_data (bytes, NULL), g_bytes_get_size (bytes));
}

typedef struct
{
  const char *theme;
  gboolean prefer_dark;
  const char *environment;
  BondLook look;
} Case;

static void
test_the_theme_chooses_the_look (void)
{
  static const Case cases[] = {
    { "Default", FALSE, NULL, BOND_LOOK_LIGHT },
    { "Default", TRUE, NULL, BOND_LOOK_DARK },
    { "Default", TRUE, "", BOND_LOOK_DARK },
    { "Default-dark", FALSE, NULL, BOND_LOOK_DARK },
    { "Adwaita-dark", FALSE, NULL, BOND_LOOK_DARK },
    { NULL, FALSE, NULL, BOND_LOOK_LIGHT },
    { "Default", FALSE, "Adwaita:dark", BOND_LOOK_DARK },
    { "Default", TRUE, "Adwaita", BOND_LOOK_LIGHT }, /* GTK_THEME wins over the setting */
    { "Default-hc", FALSE, NULL, BOND_LOOK_CONTRAST },
    { "Default-hc", TRUE, NULL, BOND_LOOK_CONTRAST_DARK },
    { "Default-hc-dark", FALSE, NULL, BOND_LOOK_CONTRAST_DARK },
    { "Default", FALSE, "HighContrast", BOND_LOOK_CONTRAST },
    { "Default", FALSE, "HighContrastInverse", BOND_LOOK_CONTRAST_DARK },
  };
  guint i;

  for (i = 0; i < G_N_ELEMENTS (cases); i++)
    g_assert_cmpint (bond_look_from (cases[i].theme, cases[i].prefer_dark, cases[i].environment), ==, cases[i].look);
}

static gboolean
defines (const char *sheet, const char *name)
{
  g_autofree char *line = g_strdup_printf ("@define-color %s #", name);

  return strstr (sheet, line) != NULL;
}

static void
test_every_sheet_has_every_colour (void)
{
  g_autofree char *style = sheet_text ("style.css");
  g_autoptr (GRegex) regex = g_regex_new ("@(bond_[a-z_]+)", 0, 0, NULL);
  g_autoptr (GMatchInfo) match = NULL;
  guint i, n_names = 0;

  for (g_regex_match (regex, style, 0, &match); g_match_info_matches (match); g_match_info_next (match, NULL))
    {
      g_autofree char *name = g_match_info_fetch (match, 1);

      n_names++;
      for (i = 0; i < BOND_N_LOOKS; i++)
        {
          g_autofree char *sheet = sheet_text (colour_sheets[i]);

          if (!defines (sheet, name))
            g_error ("%s lacks %s", colour_sheets[i], name);
        }
    }
  g_assert_cmpuint (n_names, >, 40);
}

static void
parsing_error_cb (GtkCssProvider *provider, GtkCssSection *section, const GError *error, gpointer data)
{
  g_error ("%s: %s", (const char *)data, error->message);
}

static void
test_sheets_parse (void)
{
  const char *const names[] = { "style.css", colour_sheets[0], colour_sheets[1], colour_sheets[2], colour_sheets[3] };
  guint i;

  for (i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autoptr (GtkCssProvider) provider = gtk_css_provider_new ();
      g_autofree char *path = g_strconcat (SHEETS, names[i], NULL);

      g_signal_connect (provider, "parsing-error", G_CALLBACK (parsing_error_cb), (gpointer)names[i]);
      gtk_css_provider_load_from_resource (provider, path);
    }
}

static double
luminance (const GdkRGBA *colour)
{
  const double channels[] = { colour->red, colour->green, colour->blue };
  static const double weights[] = { 0.2126, 0.7152, 0.0722 };
  double sum = 0.0;
  guint i;

  for (i = 0; i < 3; i++)
    sum += weights[i] * (channels[i] <= 0.04045 ? channels[i] / 12.92 : pow ((channels[i] + 0.055) / 1.055, 2.4));
  return sum;
}

static double
contrast (const GdkRGBA *a, const GdkRGBA *b)
{
  double bright = MAX (luminance (a), luminance (b));
  double dim = MIN (luminance (a), luminance (b));

  return (bright + 0.05) / (dim + 0.05);
}

static GdkRGBA
colour_of (const char *sheet, const char *name)
{
  g_autofree char *start = g_strdup_printf ("@define-color %s ", name);
  const char *found = strstr (sheet, start);
  g_autofree char *hex = NULL;
  GdkRGBA colour;

  g_assert_nonnull (found);
  hex = g_strndup (found + strlen (start), 7);
  g_assert_true (gdk_rgba_parse (&colour, hex));
  return colour;
}

static void
test_contrasts_hold (void)
{
  static const char *const pairs[][2] = {
    { "bond_text", "bond_view" },
    { "bond_text", "bond_window" },
    { "bond_quiet", "bond_view" },
    { "bond_quiet", "bond_window" },
    { "bond_guard", "bond_window" },
    { "bond_fail", "bond_window" },
    { "bond_history", "bond_window" },
    { "bond_link", "bond_window" },
    { "bond_accent_text", "bond_accent" },
    { "bond_accent_text", "bond_accent_hover" },
    { "bond_text", "bond_row" },
    { "bond_row_quiet", "bond_row" },
    { "bond_text", "bond_note" },
    { "bond_guard_band_text", "bond_guard_band" },
    { "bond_fail_band_text", "bond_fail_band" },
    { "bond_history_band_text", "bond_history_band" },
  };
  guint i, j;

  for (i = 0; i < BOND_N_LOOKS; i++)
    {
      g_autofree char *sheet = sheet_text (colour_sheets[i]);

      for (j = 0; j < G_N_ELEMENTS (pairs); j++)
        {
          GdkRGBA ink = colour_of (sheet, pairs[j][0]);
          GdkRGBA ground = colour_of (sheet, pairs[j][1]);

          if (contrast (&ink, &ground) < 4.5)
            g_error ("%s: %s on %s is %.2f", colour_sheets[i], pairs[j][0], pairs[j][1], contrast (&ink, &ground));
        }
    }
}

static GdkRGBA
rgba (const BondRgb *ink)
{
  return (GdkRGBA){ (float)ink->r, (float)ink->g, (float)ink->b, 1.0f };
}

static void
test_marks_stand_out (void)
{
  guint i, j;

  for (i = 0; i < BOND_N_LOOKS; i++)
    {
      const BondInks *inks = bond_look_inks (i);
      const BondRgb *marks[] = { &inks->todo, &inks->pass, &inks->guard, &inks->fail, &inks->history, &inks->accent };
      GdkRGBA paper = rgba (&inks->paper);

      for (j = 0; j < G_N_ELEMENTS (marks); j++)
        {
          GdkRGBA ink = rgba (marks[j]);

          g_assert_cmpfloat (contrast (&ink, &paper), >=, 3.0);
        }
    }
}

static void
test_colours_follow_the_setting (void)
{
  GtkSettings *settings = gtk_settings_get_default ();
  GtkWidget *label = gtk_label_new ("quiet");
  GtkWindow *window = screen_show (label, 200, 60);
  GdkRGBA light, dark;

  gtk_widget_add_css_class (label, "quiet");
  screen_spin (50);
  gtk_style_context_get_color (gtk_widget_get_style_context (label), &light);
  g_object_set (settings, "gtk-application-prefer-dark-theme", TRUE, NULL);
  screen_spin (50);
  gtk_style_context_get_color (gtk_widget_get_style_context (label), &dark);
  g_assert_true (bond_style_inks (label) == bond_inks_dark ());
  g_object_set (settings, "gtk-application-prefer-dark-theme", FALSE, NULL);
  g_assert_true (bond_style_inks (label) == bond_inks_light ());
  g_assert_cmpfloat (luminance (&dark), >, luminance (&light) + 0.3);
  gtk_window_destroy (window);
}

static void
test_a_mark_has_a_name (void)
{
  GtkWidget *image = bond_mark_image_new ();
  GtkWindow *window = screen_show (image, 60, 60);
  const BondInks *inks = bond_style_inks (image);
  cairo_surface_t *picture;
  guint i;

  gtk_test_accessible_assert_role (GTK_ACCESSIBLE (image), GTK_ACCESSIBLE_ROLE_IMG);
  for (i = 0; i < BOND_N_MARKS; i++)
    {
      bond_mark_image_set_mark (BOND_MARK_IMAGE (image), i);
      g_assert_cmpstr (bond_mark_name (i), !=, "");
      gtk_test_accessible_assert_property (GTK_ACCESSIBLE (image), GTK_ACCESSIBLE_PROPERTY_LABEL, bond_mark_name (i));
    }
  bond_mark_image_set_mark (BOND_MARK_IMAGE (image), BOND_MARK_FAIL);
  picture = screen_picture (image, &inks->paper);
  g_assert_cmpuint (screen_count_ink (picture, 0, 0, 60, 60, &inks->fail), >, 30);
  cairo_surface_destroy (picture);
  bond_mark_image_set_class (BOND_MARK_IMAGE (image), BOND_CLASS_FASTENER);
  gtk_test_accessible_assert_property (GTK_ACCESSIBLE (image), GTK_ACCESSIBLE_PROPERTY_LABEL, "fastener");
  bond_mark_image_clear (BOND_MARK_IMAGE (image));
  picture = screen_picture (image, &inks->paper);
  g_assert_cmpuint (screen_count_ink (picture, 0, 0, 60, 60, &inks->text), ==, 0);
  cairo_surface_destroy (picture);
  gtk_window_destroy (window);
}

static void
bind_cb (GtkListItemFactory *factory, GtkListItem *item, gpointer data)
{
  gtk_list_item_set_child (item, gtk_label_new ("row"));
  if (gtk_list_item_get_position (item) == 400)
    *(gboolean *)data = TRUE;
}

static void
test_a_list_scrolls_to_a_row (void)
{
  GtkStringList *strings = gtk_string_list_new (NULL);
  GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();
  gboolean bound = FALSE;
  GtkWidget *list, *scrolled;
  GtkAdjustment *adjustment;
  GtkWindow *window;
  guint i;

  for (i = 0; i < 500; i++)
    gtk_string_list_append (strings, "row");
  g_signal_connect (factory, "bind", G_CALLBACK (bind_cb), &bound);
  list = gtk_list_view_new (GTK_SELECTION_MODEL (gtk_single_selection_new (G_LIST_MODEL (strings))), factory);
  scrolled = gtk_scrolled_window_new ();
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scrolled), list);
  window = screen_show (scrolled, 200, 200);
  adjustment = gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (scrolled));
  g_assert_cmpfloat (gtk_adjustment_get_value (adjustment), ==, 0.0);
  bond_list_scroll_to (list, 400);
  screen_spin (100);
  g_assert_cmpfloat (gtk_adjustment_get_value (adjustment), >, 1000.0);
  g_assert_true (bound);
  bond_announce (list, "541-J04 pass");
  gtk_window_destroy (window);
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  bond_style_attach (gdk_display_get_default ());
  bond_style_attach (gdk_display_get_default ());
  g_test_add_func ("/style/look", test_the_theme_chooses_the_look);
  g_test_add_func ("/style/whole", test_every_sheet_has_every_colour);
  g_test_add_func ("/style/parses", test_sheets_parse);
  g_test_add_func ("/style/contrast", test_contrasts_hold);
  g_test_add_func ("/style/marks", test_marks_stand_out);
  g_test_add_func ("/style/follows", test_colours_follow_the_setting);
  g_test_add_func ("/style/mark-image", test_a_mark_has_a_name);
  g_test_add_func ("/compat/scroll", test_a_list_scrolls_to_a_row);
  return g_test_run ();
}
