/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The one page all registers are shown by.  What stands in a row and in the details
 * is the register's own file.
 */
#include "gui/start/register-page.h"
#include "gui/dialog.h"
#include "gui/start/register-private.h"
#include "gui/start/rows.h"
#include "store/register-file.h"
#include <glib/gi18n-lib.h>

#define LIST_WIDTH 180
#define LIST_CHARS 26
#define OBJECT_KEY "bond-object"

struct _BondRegisterPage
{
  GtkBox parent_instance;
  BondApplication *application; /* outlives the page */
  const BondRegisterInfo *info;
  GtkListBox *list;
  GtkWidget *side; /* the list in its scroller, and the line beside it */
  GtkScrolledWindow *scroll;
  GtkLabel *empty;
};

G_DEFINE_FINAL_TYPE (BondRegisterPage, bond_register_page, GTK_TYPE_BOX)

/* Objects of a catalogue are never changed, only replaced: a row holds its own reference. */
static gpointer
object_of (GtkListBoxRow *row)
{
  return row != NULL ? g_object_get_data (G_OBJECT (row), OBJECT_KEY) : NULL;
}

static const char *
id_of (BondRegisterPage *self, gpointer object)
{
  switch (self->info->what)
    {
    case BOND_ADOPT_INSTRUMENT:
      return ((BondInstrument *)object)->id;
    case BOND_ADOPT_AIRFRAME:
      return ((BondAirframe *)object)->id;
    case BOND_ADOPT_LIMIT_SET:
      return ((BondLimitSet *)object)->id;
    default:
      return ((BondPerson *)object)->id;
    }
}

typedef struct
{
  BondAdoptKind what;
  gpointer object;
} Held;

static void
held_free (gpointer data)
{
  Held *held = data;

  bond_register_unref (held->what, held->object);
  g_free (held);
}

/* Names that begin alike differ at their end. */
static GtkWidget *
list_label (const char *text, const char *css)
{
  GtkWidget *label = bond_start_label (text, css);

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_lines (GTK_LABEL (label), 3);
  gtk_label_set_max_width_chars (GTK_LABEL (label), LIST_CHARS);
  return label;
}

static GtkWidget *
row_new (BondRegisterPage *self, gpointer object)
{
  GtkWidget *row = gtk_list_box_row_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  g_autofree char *first = self->info->first (object);
  g_autofree char *second = self->info->second (object);
  g_autofree char *name = g_strdup_printf ("%s, %s", first, second);
  Held *held = g_new0 (Held, 1);

  held->what = self->info->what;
  held->object = bond_register_ref (held->what, object);
  gtk_box_append (GTK_BOX (box), list_label (first, "strong"));
  gtk_box_append (GTK_BOX (box), list_label (second, "note"));
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), box);
  gtk_widget_add_css_class (row, "start-row");
  g_object_set_data (G_OBJECT (row), OBJECT_KEY, object);
  g_object_set_data_full (G_OBJECT (row), "bond-held", held, held_free);
  bond_name_widget (row, name);
  return row;
}

static void
row_selected_cb (BondRegisterPage *self, GtkListBoxRow *row)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  gpointer object = object_of (row);
  g_autofree char *name = NULL;

  gtk_widget_set_margin_start (box, 16);
  gtk_widget_set_margin_end (box, 16);
  gtk_widget_set_margin_top (box, 12);
  gtk_widget_set_margin_bottom (box, 24);
  if (object != NULL)
    {
      g_autofree char *first = self->info->first (object);

      name = g_strdup_printf (_ ("Details of %s"), first);
      self->info->fill (self, GTK_BOX (box), object);
    }
  gtk_scrolled_window_set_child (self->scroll, box);
  bond_name_widget (self->scroll, name != NULL ? name : _ ("Details"));
}

void
bond_register_page_refill (BondRegisterPage *self, const char *id)
{
  BondCatalog *catalog = bond_application_get_catalog (self->application);
  g_autoptr (GPtrArray) objects = bond_catalog_list (catalog, self->info->what);
  gpointer before = object_of (gtk_list_box_get_selected_row (self->list));
  g_autofree char *wanted = g_strdup (id != NULL ? id : before != NULL ? id_of (self, before) : NULL);
  GtkListBoxRow *chosen = NULL;

  while (gtk_list_box_get_row_at_index (self->list, 0) != NULL)
    gtk_list_box_remove (self->list, GTK_WIDGET (gtk_list_box_get_row_at_index (self->list, 0)));
  for (guint i = 0; i < objects->len; i++)
    {
      GtkWidget *row = row_new (self, objects->pdata[i]);

      gtk_list_box_append (self->list, row);
      if (chosen == NULL || g_strcmp0 (id_of (self, objects->pdata[i]), wanted) == 0)
        chosen = GTK_LIST_BOX_ROW (row);
    }
  gtk_widget_set_visible (GTK_WIDGET (self->scroll), chosen != NULL);
  gtk_widget_set_visible (self->side, chosen != NULL);
  gtk_widget_set_visible (GTK_WIDGET (self->empty), chosen == NULL);
  gtk_list_box_select_row (self->list, chosen);
}

static void
act_clicked_cb (BondRegisterPage *self)
{
  self->info->act (self);
}

static GtkWidget *
title_box (BondRegisterPage *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *title = bond_start_label (_ (self->info->title), "page");

  gtk_widget_set_hexpand (title, TRUE);
  gtk_box_append (GTK_BOX (box), title);
  if (self->info->act_label != NULL)
    {
      GtkWidget *button = gtk_button_new_with_mnemonic (_ (self->info->act_label));
      g_auto (GStrv) parts = g_strsplit (_ (self->info->act_label), "_", -1);
      g_autofree char *plain = g_strjoinv ("", parts);

      bond_name_widget (button, plain);
      g_signal_connect_swapped (button, "clicked", G_CALLBACK (act_clicked_cb), self);
      gtk_box_append (GTK_BOX (box), button);
    }
  return box;
}

static GtkWidget *
list_scroll (BondRegisterPage *self)
{
  GtkWidget *scroll = gtk_scrolled_window_new ();

  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroll), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroll), GTK_WIDGET (self->list));
  gtk_widget_set_size_request (scroll, LIST_WIDTH, -1);
  /* Reached only when nothing is in it; one that refuses the focus would hold Tab up. */
  bond_name_widget (scroll, _ (self->info->title));
  return scroll;
}

static void
fill_page (BondRegisterPage *self)
{
  GtkWidget *panes = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);
  GtkWidget *rule = gtk_separator_new (GTK_ORIENTATION_HORIZONTAL);

  gtk_widget_add_css_class (rule, "rule-strong");
  gtk_box_append (GTK_BOX (self), title_box (self));
  if (self->info->note != NULL)
    gtk_box_append (GTK_BOX (self), bond_detail_label (_ (self->info->note), "note"));
  gtk_box_append (GTK_BOX (self), bond_register_problems_new (self->application, self->info->folder));
  gtk_box_append (GTK_BOX (self), rule);
  gtk_label_set_text (self->empty, _ (self->info->empty));
  self->side = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);
  gtk_box_append (GTK_BOX (self->side), list_scroll (self));
  gtk_box_append (GTK_BOX (self->side), gtk_separator_new (GTK_ORIENTATION_VERTICAL));
  gtk_box_append (GTK_BOX (panes), self->side);
  gtk_box_append (GTK_BOX (panes), GTK_WIDGET (self->scroll));
  gtk_box_append (GTK_BOX (panes), GTK_WIDGET (self->empty));
  gtk_widget_set_vexpand (panes, TRUE);
  gtk_box_append (GTK_BOX (self), panes);
  bond_name_widget (self->list, _ (self->info->title));
}

static void
bond_register_page_class_init (BondRegisterPageClass *klass)
{
}

static void
bond_register_page_init (BondRegisterPage *self)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (self), 8);
  gtk_widget_set_margin_start (GTK_WIDGET (self), BOND_PAGE_MARGIN);
  gtk_widget_set_margin_end (GTK_WIDGET (self), 20);
  gtk_widget_set_margin_top (GTK_WIDGET (self), 20);
  self->list = GTK_LIST_BOX (gtk_list_box_new ());
  gtk_list_box_set_selection_mode (self->list, GTK_SELECTION_BROWSE);
  gtk_widget_add_css_class (GTK_WIDGET (self->list), "start-list");
  bond_list_rove (self->list);
  g_signal_connect_swapped (self->list, "row-selected", G_CALLBACK (row_selected_cb), self);
  self->scroll = GTK_SCROLLED_WINDOW (gtk_scrolled_window_new ());
  gtk_scrolled_window_set_policy (self->scroll, GTK_POLICY_AUTOMATIC, GTK_POLICY_AUTOMATIC);
  gtk_widget_set_hexpand (GTK_WIDGET (self->scroll), TRUE);
  self->empty = GTK_LABEL (bond_detail_label (NULL, "note"));
  gtk_widget_set_hexpand (GTK_WIDGET (self->empty), TRUE);
  gtk_widget_set_margin_top (GTK_WIDGET (self->empty), 24);
}

GtkWidget *
bond_register_page_new (BondApplication *application, const BondRegisterInfo *info)
{
  BondRegisterPage *self;

  g_return_val_if_fail (BOND_IS_APPLICATION (application) && info != NULL, NULL);
  self = g_object_new (BOND_TYPE_REGISTER_PAGE, NULL);
  self->application = application;
  self->info = info;
  fill_page (self);
  bond_register_page_refill (self, NULL);
  return GTK_WIDGET (self);
}

BondApplication *
bond_register_page_get_application (BondRegisterPage *self)
{
  g_return_val_if_fail (BOND_IS_REGISTER_PAGE (self), NULL);
  return self->application;
}
