/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The chip and its popover, filled anew each time it opens.  A digit picks a row, a
 * letter begins a name: changing hands costs two keys.  That the new person has read
 * the cautions is the gate's to ask.
 */
#include "gui/dialogs/people-popover.h"
#include "gui/dialog.h"
#include <glib/gi18n-lib.h>
#include <string.h>

#define KEYED_MAX 9

typedef struct
{
  BondWalk *walk;
  BondCatalog *catalog;
  GtkWidget *button, *popover;
  GtkLabel *label;
  GtkEditable *name;
  GtkDropDown *entered, *under;
  GPtrArray *people; /* of BondPerson, as listed */
  gboolean filling;
} Chip;

static void
chip_free (gpointer data)
{
  Chip *chip = data;

  g_signal_handlers_disconnect_by_data (chip->walk, chip);
  g_clear_object (&chip->walk);
  g_clear_pointer (&chip->people, g_ptr_array_unref);
  g_free (chip);
}

static BondSurvey *
survey_of (Chip *chip)
{
  return bond_walk_get_survey (chip->walk);
}

char *
bond_people_words (BondSurvey *survey)
{
  const char *person = bond_survey_get_person (survey);
  const char *entered = bond_survey_get_entered_by (survey);
  const char *under = bond_survey_get_under (survey);
  GString *text = g_string_new (person != NULL ? bond_survey_person_name (survey, person) : _ ("nobody named"));

  if (under != NULL)
    g_string_append_printf (text, _ (", under %s"), bond_survey_person_name (survey, under));
  if (entered != NULL)
    g_string_append_printf (text, _ (", entered by %s"), bond_survey_person_name (survey, entered));
  return g_string_free (text, FALSE);
}

static void
refresh (Chip *chip)
{
  g_autofree char *text = bond_people_words (survey_of (chip));
  g_autofree char *name = g_strdup_printf (_ ("Measured by %s"), text);
  g_autofree char *tip = g_strdup_printf (_ ("%s (Alt+P)"), name);

  gtk_label_set_text (chip->label, text);
  gtk_widget_set_tooltip_text (chip->button, tip);
  bond_name_widget (chip->button, name);
}

GPtrArray *
bond_people_listed (BondSurvey *survey, BondCatalog *catalog)
{
  GPtrArray *people = bond_survey_get_people (survey);
  GPtrArray *listed = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_person_unref);
  g_autoptr (GPtrArray) more = catalog != NULL ? bond_catalog_list (catalog, BOND_ADOPT_PERSON) : NULL;

  for (guint i = 0; i < people->len; i++)
    if (!((BondPerson *)g_ptr_array_index (people, i))->disabled)
      g_ptr_array_add (listed, bond_person_ref (g_ptr_array_index (people, i)));
  for (guint i = 0; more != NULL && i < more->len; i++)
    {
      BondPerson *person = g_ptr_array_index (more, i);

      if (!person->disabled && bond_survey_find_person (survey, person->id) == NULL)
        g_ptr_array_add (listed, bond_person_ref (person));
    }
  return listed;
}

static void
adopt (BondWalk *walk, BondPerson *person)
{
  BondSurvey *survey = bond_walk_get_survey (walk);
  BondEntry *entry;

  if (bond_survey_find_person (survey, person->id) != NULL)
    return;
  entry = bond_entry_adopt_new (BOND_ADOPT_PERSON, person);
  entry->by = g_strdup (bond_survey_get_person (survey) != NULL ? bond_survey_get_person (survey) : person->id);
  bond_walk_record_entry (walk, entry);
}

char *
bond_adopt_person (BondWalk *walk, const char *name)
{
  g_autofree char *id = NULL;
  g_autoptr (BondPerson) person = NULL;

  g_return_val_if_fail (BOND_IS_WALK (walk) && name != NULL && *name != '\0', NULL);
  id = bond_source_id (bond_survey_get_source (bond_walk_get_survey (walk)), "p-");
  person = bond_person_new (id, 1, name, NULL, NULL);
  adopt (walk, person);
  return g_steal_pointer (&id);
}

void
bond_add_person (BondWalk *walk, const char *name)
{
  g_autofree char *id = bond_adopt_person (walk, name);

  if (id != NULL)
    bond_walk_set_person (walk, id);
}

static void
choose (Chip *chip, guint i)
{
  BondPerson *person = g_ptr_array_index (chip->people, i);

  adopt (chip->walk, person);
  bond_walk_set_person (chip->walk, person->id);
  gtk_popover_popdown (GTK_POPOVER (chip->popover));
}

static void
row_clicked_cb (GtkButton *row, Chip *chip)
{
  choose (chip, GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (row), "bond-row")));
}

/* Part of a name means the one who has it; two who have it are left to the rows. */
static gboolean
find_by_part (Chip *chip, const char *part, guint *found)
{
  g_autofree char *wanted = g_utf8_casefold (part, -1);
  guint n = 0;

  for (guint i = 0; i < chip->people->len; i++)
    {
      g_autofree char *name = g_utf8_casefold (((BondPerson *)g_ptr_array_index (chip->people, i))->name, -1);

      if (g_str_equal (name, wanted))
        {
          *found = i;
          return TRUE;
        }
      if (strstr (name, wanted) != NULL && n++ == 0)
        *found = i;
    }
  return n == 1 && g_utf8_strlen (part, -1) > 1;
}

static void
name_entered_cb (Chip *chip)
{
  g_autofree char *name = bond_dialog_text (chip->name);
  guint found = 0;

  if (name == NULL)
    return;
  if (find_by_part (chip, name, &found))
    {
      choose (chip, found);
      return;
    }
  bond_add_person (chip->walk, name);
  gtk_popover_popdown (GTK_POPOVER (chip->popover));
}

static gboolean
key_cb (Chip *chip, guint keyval, guint keycode, GdkModifierType state)
{
  gunichar key = gdk_keyval_to_unicode (keyval);
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (gtk_widget_get_root (chip->popover)));
  gboolean in_name = focus != NULL && gtk_widget_is_ancestor (focus, GTK_WIDGET (chip->name));

  if ((state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0 || key == 0)
    return GDK_EVENT_PROPAGATE;
  if (key >= '1' && key <= '9' && *gtk_editable_get_text (chip->name) == '\0')
    {
      if (key - '1' < chip->people->len)
        choose (chip, key - '1');
      return GDK_EVENT_STOP;
    }
  if (in_name || !g_unichar_isalpha (key))
    return GDK_EVENT_PROPAGATE;
  gtk_widget_grab_focus (GTK_WIDGET (chip->name));
  gtk_editable_set_position (chip->name, -1);
  return GDK_EVENT_PROPAGATE;
}

static void
attribution_cb (Chip *chip)
{
  guint entered, under;

  if (chip->filling)
    return;
  entered = gtk_drop_down_get_selected (chip->entered);
  under = gtk_drop_down_get_selected (chip->under);
  for (guint i = 0; i < chip->people->len; i++)
    if (i + 1 == entered || i + 1 == under)
      adopt (chip->walk, g_ptr_array_index (chip->people, i));
  bond_survey_set_attribution (survey_of (chip),
                               entered > 0 ? ((BondPerson *)g_ptr_array_index (chip->people, entered - 1))->id : NULL,
                               under > 0 ? ((BondPerson *)g_ptr_array_index (chip->people, under - 1))->id : NULL);
  bond_walk_set_person (chip->walk, bond_survey_get_person (survey_of (chip))); /* tells who shows it */
}

static char *
person_note (const BondPerson *person)
{
  if (person->stamp != NULL && person->role != NULL)
    return g_strdup_printf (_ ("%s, stamp %s"), person->role, person->stamp);
  if (person->stamp != NULL)
    return g_strdup_printf (_ ("stamp %s"), person->stamp);
  return g_strdup (person->role != NULL ? person->role : "");
}

static GtkWidget *
add_label (GtkWidget *box, const char *text, const char *css)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  if (css != NULL)
    gtk_widget_add_css_class (label, css);
  gtk_box_append (GTK_BOX (box), label);
  return label;
}

static void
add_person_row (Chip *chip, GtkWidget *box, guint i)
{
  const BondPerson *person = g_ptr_array_index (chip->people, i);
  gboolean measures = g_strcmp0 (person->id, bond_survey_get_person (survey_of (chip))) == 0;
  GtkWidget *row = gtk_button_new ();
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  g_autofree char *digit = i < KEYED_MAX ? g_strdup_printf ("%u", i + 1) : g_strdup (" ");
  g_autofree char *note = person_note (person);
  g_autofree char *spoken = g_strdup_printf (measures ? _ ("%s, measures now") : "%s", person->name);
  GtkWidget *key = add_label (line, digit, i < KEYED_MAX ? "key" : NULL);

  gtk_widget_set_valign (key, GTK_ALIGN_CENTER);
  gtk_label_set_xalign (GTK_LABEL (key), 0.5);
  add_label (line, person->name, measures ? "strong" : NULL);
  gtk_widget_set_hexpand (add_label (line, note, "note"), TRUE);
  if (measures)
    add_label (line, _ ("measures now"), "note");
  gtk_button_set_child (GTK_BUTTON (row), line);
  gtk_widget_add_css_class (row, "verb");
  gtk_widget_set_tooltip_text (row, person->id);
  g_object_set_data (G_OBJECT (row), "bond-row", GUINT_TO_POINTER (i));
  bond_name_widget (row, spoken);
  g_signal_connect (row, "clicked", G_CALLBACK (row_clicked_cb), chip);
  gtk_box_append (GTK_BOX (box), row);
}

static GtkDropDown *
add_choice (Chip *chip, GtkGrid *grid, int at, const char *text, const char *nobody, const char *chosen)
{
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);
  GtkWidget *label = gtk_label_new (text);
  GtkWidget *drop;
  guint selected = 0;

  gtk_string_list_append (names, nobody);
  for (guint i = 0; i < chip->people->len; i++)
    {
      const BondPerson *person = g_ptr_array_index (chip->people, i);

      gtk_string_list_append (names, person->name);
      if (g_strcmp0 (person->id, chosen) == 0)
        selected = i + 1;
    }
  drop = gtk_drop_down_new (G_LIST_MODEL (g_object_ref (names)), NULL);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (drop), selected);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_add_css_class (label, "quiet");
  gtk_widget_set_hexpand (drop, TRUE);
  bond_name_widget (drop, text);
  g_signal_connect_swapped (drop, "notify::selected", G_CALLBACK (attribution_cb), chip);
  gtk_grid_attach (grid, label, 0, at, 1, 1);
  gtk_grid_attach (grid, drop, 1, at, 1, 1);
  return GTK_DROP_DOWN (drop);
}

static void
add_attribution (Chip *chip, GtkWidget *box)
{
  GtkWidget *grid = gtk_grid_new ();

  gtk_grid_set_row_spacing (GTK_GRID (grid), 4);
  gtk_grid_set_column_spacing (GTK_GRID (grid), 12);
  gtk_widget_set_margin_top (grid, 8);
  chip->filling = TRUE;
  chip->entered = add_choice (chip, GTK_GRID (grid), 0, _ ("Entered by"), _ ("who measures"),
                              bond_survey_get_entered_by (survey_of (chip)));
  chip->under = add_choice (chip, GTK_GRID (grid), 1, _ ("Under supervision of"), _ ("nobody"),
                            bond_survey_get_under (survey_of (chip)));
  chip->filling = FALSE;
  gtk_box_append (GTK_BOX (box), grid);
}

static void
fill_cb (Chip *chip)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);

  g_clear_pointer (&chip->people, g_ptr_array_unref);
  chip->people = bond_people_listed (survey_of (chip), chip->catalog);
  add_label (box, _ ("Measured by"), "section");
  for (guint i = 0; i < chip->people->len; i++)
    add_person_row (chip, box, i);
  chip->name = GTK_EDITABLE (gtk_entry_new ());
  gtk_entry_set_placeholder_text (GTK_ENTRY (chip->name), _ ("A digit, or a name and Enter"));
  gtk_editable_set_width_chars (chip->name, 28);
  bond_name_widget (chip->name, _ ("Another name"));
  g_signal_connect_swapped (chip->name, "activate", G_CALLBACK (name_entered_cb), chip);
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (chip->name));
  add_attribution (chip, box);
  gtk_popover_set_child (GTK_POPOVER (chip->popover), box);
  gtk_widget_grab_focus (GTK_WIDGET (chip->name));
}

GtkWidget *
bond_people_chip_new (BondWalk *walk, BondCatalog *catalog)
{
  Chip *chip = g_new0 (Chip, 1);
  GtkEventController *keys = gtk_event_controller_key_new ();

  chip->walk = g_object_ref (walk);
  chip->catalog = catalog;
  chip->button = gtk_menu_button_new ();
  chip->label = GTK_LABEL (gtk_label_new (NULL));
  chip->popover = gtk_popover_new ();
  gtk_label_set_ellipsize (chip->label, PANGO_ELLIPSIZE_END);
  gtk_label_set_max_width_chars (chip->label, 24);
  gtk_widget_add_css_class (GTK_WIDGET (chip->label), "strong");
  gtk_menu_button_set_child (GTK_MENU_BUTTON (chip->button), GTK_WIDGET (chip->label));
  gtk_menu_button_set_always_show_arrow (GTK_MENU_BUTTON (chip->button), TRUE);
  gtk_menu_button_set_has_frame (GTK_MENU_BUTTON (chip->button), FALSE);
  gtk_menu_button_set_popover (GTK_MENU_BUTTON (chip->button), chip->popover);
  bond_name_widget (chip->popover, _ ("Who measures"));
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect_swapped (keys, "key-pressed", G_CALLBACK (key_cb), chip);
  gtk_widget_add_controller (chip->popover, keys);
  g_signal_connect_swapped (chip->popover, "show", G_CALLBACK (fill_cb), chip);
  g_signal_connect_swapped (walk, "pinned-changed", G_CALLBACK (refresh), chip);
  g_signal_connect_swapped (walk, "recorded", G_CALLBACK (refresh), chip);
  g_object_set_data_full (G_OBJECT (chip->button), "bond-chip", chip, chip_free);
  refresh (chip);
  return chip->button;
}
