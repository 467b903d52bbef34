/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One row a key.  A key of the keyboard does everything a key here does, so the keys
 * take no focus: a finger must never move the caret out of the field.
 */
#include "gui/pages/keypad.h"
#include "core/ohm.h"
#include "gui/dialog.h"
#include <glib/gi18n-lib.h>

#define COLUMNS 5
#define ROWS 4
#define LEAST_KEY 44

struct _BondKeypad
{
  GtkWidget parent_instance;
  GtkWidget *grid;
  BondReadingEntry *entry; /* not owned: both are in one panel */
  GtkWidget *unit[3];
  int key, gap;
};

G_DEFINE_FINAL_TYPE (BondKeypad, bond_keypad, GTK_TYPE_WIDGET)

typedef enum
{
  KEY_TEXT,
  KEY_MARK, /* the locale's decimal mark */
  KEY_UNIT,
  KEY_BACK,
} KeyKind;

/* One row a key: @text what it types, or its unit letter; @name what is read aloud, NULL = the text. */
static const struct
{
  KeyKind kind;
  const char *text, *name;
  int column, row, width;
} keys[] = {
  { KEY_TEXT, "7", NULL, 0, 0, 1 },
  { KEY_TEXT, "8", NULL, 1, 0, 1 },
  { KEY_TEXT, "9", NULL, 2, 0, 1 },
  { KEY_UNIT, "u", N_ ("Microohm, this reading only"), 3, 0, 1 },
  { KEY_TEXT, ">", N_ ("Above the range"), 4, 0, 1 },
  { KEY_TEXT, "4", NULL, 0, 1, 1 },
  { KEY_TEXT, "5", NULL, 1, 1, 1 },
  { KEY_TEXT, "6", NULL, 2, 1, 1 },
  { KEY_UNIT, "m", N_ ("Milliohm, this reading only"), 3, 1, 1 },
  { KEY_TEXT, "<", N_ ("Below the display step"), 4, 1, 1 },
  { KEY_TEXT, "1", NULL, 0, 2, 1 },
  { KEY_TEXT, "2", NULL, 1, 2, 1 },
  { KEY_TEXT, "3", NULL, 2, 2, 1 },
  { KEY_UNIT, "o", N_ ("Ohm, this reading only"), 3, 2, 1 },
  { KEY_TEXT, "-", N_ ("Minus"), 4, 2, 1 },
  { KEY_TEXT, "0", NULL, 0, 3, 2 },
  { KEY_MARK, NULL, N_ ("Decimal mark"), 2, 3, 1 },
  { KEY_BACK, NULL, N_ ("Delete the last character"), 3, 3, 2 },
};

static const char *const unit_letters = "umo";
static const BondUnit units[3] = { BOND_UNIT_MICROOHM, BOND_UNIT_MILLIOHM, BOND_UNIT_OHM };

static void
delete_before_caret (GtkEditable *field)
{
  int start, end;

  if (gtk_editable_get_selection_bounds (field, &start, &end))
    {
      gtk_editable_delete_selection (field);
      return;
    }
  end = gtk_editable_get_position (field);
  if (end > 0)
    gtk_editable_delete_text (field, end - 1, end);
}

/* The unit stands at the end, once: pressed again it goes, another takes its place. */
static void
set_unit (GtkEditable *field, char letter)
{
  const char *text = gtk_editable_get_text (field);
  int length = (int)g_utf8_strlen (text, -1);
  char last = *text != '\0' ? text[strlen (text) - 1] : '\0';
  int position = length;

  if (length == 0)
    return;
  if (last != '\0' && strchr (unit_letters, last) != NULL)
    {
      gtk_editable_delete_text (field, length - 1, length);
      position = length - 1;
    }
  if (last != letter)
    gtk_editable_insert_text (field, &letter, 1, &position);
  gtk_editable_set_position (field, -1);
}

static void
pressed_cb (GtkWidget *button, BondKeypad *self)
{
  guint key = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "key"));
  GtkEditable *field = GTK_EDITABLE (self->entry);

  switch (keys[key].kind)
    {
    case KEY_TEXT:
      bond_reading_entry_inject (self->entry, (gunichar)keys[key].text[0]);
      return;
    case KEY_MARK:
      bond_reading_entry_inject (self->entry, (gunichar)bond_locale_mark ());
      return;
    case KEY_UNIT:
      set_unit (field, keys[key].text[0]);
      break;
    case KEY_BACK:
    default:
      delete_before_caret (field);
      break;
    }
  gtk_entry_grab_focus_without_selecting (GTK_ENTRY (self->entry));
}

static void
add_key (BondKeypad *self, guint key)
{
  const char mark[] = { bond_locale_mark (), '\0' };
  GtkWidget *button = gtk_button_new ();
  const char *at = keys[key].kind == KEY_UNIT ? strchr (unit_letters, keys[key].text[0]) : NULL;

  if (keys[key].kind == KEY_BACK)
    gtk_button_set_icon_name (GTK_BUTTON (button), "edit-clear-symbolic");
  else if (at != NULL)
    gtk_button_set_label (GTK_BUTTON (button), bond_unit_symbol (units[at - unit_letters]));
  else
    gtk_button_set_label (GTK_BUTTON (button), keys[key].kind == KEY_MARK ? mark : keys[key].text);
  if (at != NULL)
    self->unit[at - unit_letters] = button;
  g_object_set_data (G_OBJECT (button), "key", GUINT_TO_POINTER (key));
  gtk_widget_set_focus_on_click (button, FALSE);
  gtk_widget_set_focusable (button, FALSE);
  gtk_widget_add_css_class (button, "keypad-key");
  bond_name_widget (button, keys[key].name != NULL ? _ (keys[key].name) : keys[key].text);
  g_signal_connect (button, "clicked", G_CALLBACK (pressed_cb), self);
  gtk_grid_attach (GTK_GRID (self->grid), button, keys[key].column, keys[key].row, keys[key].width, 1);
}

/* A unit needs a figure before it. */
static void
field_changed_cb (BondKeypad *self)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (self->entry));
  char last = *text != '\0' ? text[strlen (text) - 1] : '\0';

  for (int i = 0; i < 3; i++)
    {
      gtk_widget_set_sensitive (self->unit[i], *text != '\0');
      (last == unit_letters[i] ? gtk_widget_add_css_class : gtk_widget_remove_css_class) (self->unit[i], "chosen");
    }
}

static void
bond_keypad_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum, int *natural,
                     int *minimum_baseline, int *natural_baseline)
{
  BondKeypad *self = BOND_KEYPAD (widget);
  int n = orientation == GTK_ORIENTATION_HORIZONTAL ? COLUMNS : ROWS;

  gtk_widget_measure (self->grid, orientation, -1, minimum, natural, NULL, NULL);
  *minimum = MAX (*minimum, n * LEAST_KEY + (n - 1) * self->gap);
  *natural = MAX (*minimum, n * self->key + (n - 1) * self->gap);
  *minimum_baseline = *natural_baseline = -1;
}

static void
bond_keypad_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  gtk_widget_size_allocate (BOND_KEYPAD (widget)->grid, &(GtkAllocation){ 0, 0, width, height }, -1);
}

static void
bond_keypad_dispose (GObject *object)
{
  BondKeypad *self = BOND_KEYPAD (object);

  g_clear_pointer (&self->grid, gtk_widget_unparent);
  G_OBJECT_CLASS (bond_keypad_parent_class)->dispose (object);
}

static void
bond_keypad_class_init (BondKeypadClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = bond_keypad_dispose;
  widget_class->measure = bond_keypad_measure;
  widget_class->size_allocate = bond_keypad_size_allocate;
  gtk_widget_class_set_css_name (widget_class, "bond-keypad");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
bond_keypad_init (BondKeypad *self)
{
  self->key = LEAST_KEY;
  self->gap = 8;
  self->grid = gtk_grid_new ();
  gtk_grid_set_row_homogeneous (GTK_GRID (self->grid), TRUE);
  gtk_grid_set_column_homogeneous (GTK_GRID (self->grid), TRUE);
  gtk_widget_set_direction (self->grid, GTK_TEXT_DIR_LTR); /* figures do not mirror */
  gtk_widget_set_parent (self->grid, GTK_WIDGET (self));
  bond_name_widget (self, _ ("Keypad"));
}

GtkWidget *
bond_keypad_new (BondReadingEntry *entry)
{
  BondKeypad *self;

  g_return_val_if_fail (BOND_IS_READING_ENTRY (entry), NULL);
  self = g_object_new (BOND_TYPE_KEYPAD, NULL);
  self->entry = entry;
  for (guint i = 0; i < G_N_ELEMENTS (keys); i++)
    add_key (self, i);
  g_signal_connect_object (entry, "changed", G_CALLBACK (field_changed_cb), self, G_CONNECT_SWAPPED);
  field_changed_cb (self);
  bond_keypad_set_size (self, self->key, self->gap);
  return GTK_WIDGET (self);
}

void
bond_keypad_set_size (BondKeypad *self, int key_px, int gap_px)
{
  g_return_if_fail (BOND_IS_KEYPAD (self));
  self->key = MAX (key_px, LEAST_KEY);
  self->gap = gap_px;
  gtk_grid_set_row_spacing (GTK_GRID (self->grid), gap_px);
  gtk_grid_set_column_spacing (GTK_GRID (self->grid), gap_px);
  gtk_widget_queue_resize (GTK_WIDGET (self));
}
