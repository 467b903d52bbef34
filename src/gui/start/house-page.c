/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The rules of the house: every figure the judging rests on, with what it means and
 * where it comes from.  A change is a new revision; a survey keeps the one it was
 * made with.
 */
#include "gui/dialog.h"
#include "gui/start/house-studies.h"
#include "gui/start/register-page.h"
#include "gui/start/register-private.h"
#include "gui/start/rows.h"
#include "gui/words.h"
#include "store/register-file.h"
#include <glib/gi18n-lib.h>

#define HOUSE_ID "house"
#define FIGURE_CHARS 6
#define NAME_CHARS 40

typedef struct
{
  goffset at;
  gboolean tenths; /* kept as thousandths, read as per cent with one decimal */
  const char *label, *unit, *meaning;
} Figure;

static const Figure figures[] = {
  { G_STRUCT_OFFSET (BondHouse, pair_percent), FALSE, N_ ("_Pairs agree within"), N_ ("% of their mean"),
    N_ ("Forward and reverse differ by no more than this. Common practice, no source.") },
  { G_STRUCT_OFFSET (BondHouse, pair_steps), FALSE, N_ ("_or within"), N_ ("display steps"),
    N_ ("Small values: whichever of the two is wider holds. Common practice, no source.") },
  { G_STRUCT_OFFSET (BondHouse, emf_microvolt), FALSE, N_ ("_Thermal voltage up to"), N_ ("µV"),
    N_ ("A difference of forward and reverse that a thermal EMF explains. Common practice, no source.") },
  { G_STRUCT_OFFSET (BondHouse, reseat_max), FALSE, N_ ("_Re-seated measurements"), N_ ("at most"),
    N_ ("After a reading beyond the limit, before the fail stands. Common practice, no source.") },
  { G_STRUCT_OFFSET (BondHouse, bare_hours), FALSE, N_ ("Protect a _bare joint within"), N_ ("hours"),
    N_ ("AC 43.13-1B (8 September 1998), ¶11-189.") },
  { G_STRUCT_OFFSET (BondHouse, vapour_permille_max), TRUE, N_ ("Fuel _vapour up to"),
    N_ ("% of the lower explosive limit"), N_ ("Above it no permit holds. From memory; your own rules govern.") },
  { G_STRUCT_OFFSET (BondHouse, oxygen_permille_min), TRUE, N_ ("O_xygen from"), N_ ("% of the air"),
    N_ ("Below it nobody goes in. From memory; your own rules govern.") },
  { G_STRUCT_OFFSET (BondHouse, oxygen_permille_max), TRUE, N_ ("Oxygen up _to"), N_ ("% of the air"),
    N_ ("Above it things burn that otherwise do not. From memory; your own rules govern.") },
  { G_STRUCT_OFFSET (BondHouse, strands_percent), FALSE, N_ ("Broken _strands up to"), N_ ("%"),
    N_ ("A braid with more is rejected. Common practice, no source.") },
};
#define N_FIGURES G_N_ELEMENTS (figures)

typedef struct
{
  BondApplication *application; /* outlives the page */
  GtkEditable *organisation, *entries[N_FIGURES], *who;
  BondHouseStudies studies;
  GtkLabel *said, *revision;
  GtkWidget *save;
} Page;

/* --- figures as text --- */

static char *
figure_text (const Figure *figure, int value)
{
  return figure->tenths ? g_strdup_printf ("%d%c%d", value / 10, bond_locale_mark (), value % 10)
                        : g_strdup_printf ("%d", value);
}

/* The whole text or nothing; tenths may be left out. */
static gboolean
parse_figure (const Figure *figure, const char *text, gint64 least, gint64 most, int *value)
{
  g_auto (GStrv) parts = g_strsplit_set (text, figure->tenths ? ".," : "", 2);
  gint64 whole = 0, tenths = 0;

  if (!g_ascii_string_to_signed (parts[0], 10, 0, most, &whole, NULL))
    return FALSE;
  if (parts[1] != NULL && !g_ascii_string_to_signed (parts[1], 10, 0, 9, &tenths, NULL))
    return FALSE;
  if (figure->tenths)
    whole = whole * 10 + tenths;
  *value = (int)whole;
  return whole >= least && whole <= most;
}

/* --- the page --- */

static const BondHouse *
house_of (Page *page)
{
  return bond_catalog_find (bond_application_get_catalog (page->application), BOND_ADOPT_HOUSE, HOUSE_ID);
}

static void
say (Page *page, const char *css, const char *text)
{
  gtk_widget_set_visible (GTK_WIDGET (page->said), text != NULL);
  gtk_label_set_text (page->said, text != NULL ? text : "");
  gtk_widget_remove_css_class (GTK_WIDGET (page->said), "fail");
  if (css != NULL)
    gtk_widget_add_css_class (GTK_WIDGET (page->said), css);
}

static char *
revision_words (const BondHouse *house)
{
  g_autofree char *date = house != NULL ? bond_words_date (house->changed_on) : NULL;

  if (house == NULL)
    return g_strdup (_ ("never set: the usual figures"));
  return house->changed_by != NULL && date != NULL
             ? g_strdup_printf (_ ("revision %d, set by %s on %s"), house->revision, house->changed_by, date)
             : g_strdup_printf (_ ("revision %d"), house->revision);
}

static void
show_house (Page *page)
{
  const BondHouse *house = house_of (page);
  g_autofree char *revision = revision_words (house);
  g_autoptr (BondHouse) usual = house == NULL ? bond_house_new (HOUSE_ID, 1, NULL) : NULL;

  if (house == NULL)
    house = usual;
  gtk_editable_set_text (page->organisation, house->organisation != NULL ? house->organisation : "");
  for (gsize i = 0; i < N_FIGURES; i++)
    {
      g_autofree char *text = figure_text (&figures[i], G_STRUCT_MEMBER (int, house, figures[i].at));

      gtk_editable_set_text (page->entries[i], text);
    }
  bond_house_studies_show (&page->studies, house);
  gtk_editable_set_text (page->who, "");
  gtk_label_set_text (page->revision, revision);
  gtk_widget_set_sensitive (page->save, FALSE);
}

static gboolean
refuse (Page *page, const char *problem, gpointer where)
{
  say (page, "fail", problem);
  gtk_widget_grab_focus (where);
  return FALSE;
}

static gboolean
read_figures (Page *page, BondHouse *house)
{
  for (gsize i = 0; i < N_FIGURES; i++)
    {
      g_autofree char *text = bond_dialog_text (page->entries[i]);
      g_autofree char *problem = NULL;
      g_autofree char *from = NULL, *to = NULL;
      int least = 0, most = 0;

      bond_house_figure_range (figures[i].at, &least, &most);
      if (text != NULL && parse_figure (&figures[i], text, least, most, &G_STRUCT_MEMBER (int, house, figures[i].at)))
        continue;
      from = figure_text (&figures[i], least);
      to = figure_text (&figures[i], most);
      problem = g_strdup_printf (
          _ ("This figure has to be between %s and %s. Nothing was saved; what you typed is kept."), from, to);
      return refuse (page, problem, page->entries[i]);
    }
  return TRUE;
}

static gboolean
read_rest (Page *page, BondHouse *house)
{
  g_autofree char *now = bond_source_now (bond_application_get_source (page->application));
  GtkWidget *wrong = NULL;
  g_autofree char *problem = bond_house_studies_read (&page->studies, house, &wrong);

  if (problem != NULL)
    return refuse (page, problem, wrong);
  house->changed_by = bond_dialog_text (page->who);
  house->changed_on = g_strndup (now, strlen ("2026-11-24"));
  if (house->changed_by == NULL)
    return refuse (page, _ ("Say who sets these rules; every revision carries a name. Nothing was saved yet."),
                   page->who);
  return TRUE;
}

static void
save_cb (Page *page)
{
  const BondHouse *before = house_of (page);
  g_autofree char *organisation = bond_dialog_text (page->organisation);
  g_autoptr (BondHouse) house = bond_house_new (HOUSE_ID, before != NULL ? before->revision + 1 : 1, organisation);
  g_autoptr (GError) error = NULL;
  g_autofree char *done = NULL;

  if (!read_figures (page, house) || !read_rest (page, house))
    return;
  if (!bond_catalog_save (bond_application_get_catalog (page->application), BOND_ADOPT_HOUSE, house, &error))
    {
      say (page, "fail", error->message);
      return;
    }
  show_house (page);
  done = g_strdup_printf (_ ("Saved as revision %d. It holds for surveys made from now on."), house->revision);
  say (page, NULL, done);
  gtk_widget_grab_focus (GTK_WIDGET (page->organisation));
}

static void
typed_cb (Page *page)
{
  gtk_widget_set_sensitive (page->save, TRUE);
  say (page, NULL, NULL);
}

static GtkEditable *
add_entry (Page *page, GtkGrid *grid, int row, const char *label, int chars)
{
  GtkWidget *name = gtk_label_new_with_mnemonic (label);
  GtkWidget *entry = gtk_entry_new ();

  gtk_label_set_xalign (GTK_LABEL (name), 0);
  gtk_label_set_mnemonic_widget (GTK_LABEL (name), entry);
  gtk_editable_set_width_chars (GTK_EDITABLE (entry), chars);
  gtk_editable_set_max_width_chars (GTK_EDITABLE (entry), chars);
  gtk_widget_add_css_class (entry, "number");
  gtk_grid_attach (grid, name, 0, row, 1, 1);
  gtk_grid_attach (grid, entry, 1, row, chars > FIGURE_CHARS ? 3 : 1, 1);
  g_signal_connect_swapped (entry, "changed", G_CALLBACK (typed_cb), page);
  return GTK_EDITABLE (entry);
}

static void
add_figures (Page *page, GtkGrid *grid)
{
  page->organisation = add_entry (page, grid, 0, _ ("Or_ganisation"), NAME_CHARS);
  for (gsize i = 0; i < N_FIGURES; i++)
    {
      int row = (int)i + 1;
      GtkWidget *unit = bond_detail_label (_ (figures[i].unit), NULL);
      GtkWidget *meaning = bond_detail_label (_ (figures[i].meaning), "note");

      page->entries[i] = add_entry (page, grid, row, _ (figures[i].label), FIGURE_CHARS);
      gtk_label_set_yalign (GTK_LABEL (unit), 0.5F);
      gtk_label_set_yalign (GTK_LABEL (meaning), 0.5F);
      gtk_widget_set_hexpand (meaning, TRUE);
      gtk_label_set_width_chars (GTK_LABEL (unit), 12);
      gtk_label_set_width_chars (GTK_LABEL (meaning), 18);
      gtk_grid_attach (grid, unit, 2, row, 1, 1);
      gtk_grid_attach (grid, meaning, 3, row, 1, 1);
    }
}

static GtkWidget *
who_grid (Page *page)
{
  GtkWidget *grid = gtk_grid_new ();

  gtk_grid_set_column_spacing (GTK_GRID (grid), 12);
  gtk_widget_set_margin_top (grid, 16);
  page->who = add_entry (page, GTK_GRID (grid), 0, _ ("Set b_y"), NAME_CHARS);
  return grid;
}

static GtkWidget *
page_top (Page *page)
{
  GtkWidget *top = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *title = bond_start_label (_ ("House Rules"), "page");

  page->revision = GTK_LABEL (bond_start_label (NULL, "note"));
  page->save = gtk_button_new_with_mnemonic (_ ("_Save as New Revision"));
  bond_name_widget (page->save, _ ("Save as New Revision"));
  gtk_widget_set_hexpand (title, TRUE);
  gtk_box_append (GTK_BOX (top), title);
  gtk_box_append (GTK_BOX (top), GTK_WIDGET (page->revision));
  gtk_box_append (GTK_BOX (top), page->save);
  g_signal_connect_swapped (page->save, "clicked", G_CALLBACK (save_cb), page);
  return top;
}

GtkWidget *
bond_house_page_new (BondApplication *application)
{
  GtkWidget *outer = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);
  GtkWidget *scroll = gtk_scrolled_window_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);
  GtkWidget *grid = gtk_grid_new ();
  GtkWidget *rule = gtk_separator_new (GTK_ORIENTATION_HORIZONTAL);
  Page *page;

  g_return_val_if_fail (BOND_IS_APPLICATION (application), NULL);
  page = g_new0 (Page, 1);
  page->application = application;
  g_object_set_data_full (G_OBJECT (outer), "bond-house-page", page, g_free);
  gtk_widget_set_margin_start (outer, BOND_PAGE_MARGIN);
  gtk_widget_set_margin_end (outer, 20);
  gtk_widget_set_margin_top (outer, 20);
  gtk_widget_add_css_class (rule, "rule-strong");
  gtk_grid_set_column_spacing (GTK_GRID (grid), 12);
  gtk_grid_set_row_spacing (GTK_GRID (grid), 8);
  page->said = GTK_LABEL (g_object_new (GTK_TYPE_LABEL, "accessible-role", GTK_ACCESSIBLE_ROLE_STATUS, "wrap", TRUE,
                                        "xalign", 0.0, "visible", FALSE, NULL));
  gtk_widget_add_css_class (GTK_WIDGET (page->said), "band");
  gtk_box_append (GTK_BOX (outer), page_top (page));
  gtk_box_append (GTK_BOX (outer), rule);
  gtk_box_append (GTK_BOX (outer), bond_register_problems_new (application, HOUSE_ID));
  gtk_box_append (GTK_BOX (outer), GTK_WIDGET (page->said));
  add_figures (page, GTK_GRID (grid));
  gtk_box_append (GTK_BOX (box), grid);
  bond_house_studies_build (&page->studies, GTK_BOX (box), G_CALLBACK (typed_cb), page);
  gtk_box_append (GTK_BOX (box), who_grid (page));
  gtk_widget_set_margin_end (box, 16);
  gtk_widget_set_margin_bottom (box, 24);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroll), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroll), box);
  gtk_widget_set_focusable (scroll, FALSE);
  gtk_widget_set_vexpand (scroll, TRUE);
  gtk_box_append (GTK_BOX (outer), scroll);
  show_house (page);
  return outer;
}
