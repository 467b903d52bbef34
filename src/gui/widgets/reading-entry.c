/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The reading field.  A capture-phase controller takes Enter, Esc, the arrows and,
 * while the field is empty, single letters, before the text sees them; everything
 * else is ordinary typing.  Two kinds of key are not a person's will and must not
 * act: an auto-repeat of Enter or of a letter, and a scanner's burst, which may
 * hold letters and ends in Enter but can only jump to a point.
 */
#include "gui/widgets/reading-entry.h"

#include "gui/compat.h"

#include <string.h>

/* No hand types four keys and Enter with less than this between any two of them (common practice, no source). */
#define BURST_GAP_MS 50
#define BURST_MIN_KEYS 4
#define DEFAULT_VERBS "RSXNZBWVUFH"
/* What a reading can begin with; a letter typed elsewhere belongs to that place. */
#define INJECTABLE "0123456789.,<>-"

struct _BondReadingEntry
{
  GtkEntry parent;
  char *verbs;
  gboolean composing; /* an input method holds unfinished text: keys are its own */
  gboolean has_problem;
  guint held_keyval;    /* key that is down, 0 = none: its next press is an auto-repeat */
  guint32 last_time_ms; /* time of the last key, 0 = unknown */
  guint burst_keys;     /* keys since the field was empty, each within BURST_GAP_MS of the one before; 0 = a person */
  char waiting_verb;    /* letter that waits to see whether a burst follows, 0 = none */
  guint waiting_source;
};

G_DEFINE_FINAL_TYPE (BondReadingEntry, bond_reading_entry, GTK_TYPE_ENTRY)

typedef enum
{
  SIGNAL_RECORD,
  SIGNAL_JUMP,
  SIGNAL_VERB,
  SIGNAL_STEP,
  SIGNAL_STEP_ZONE,
  SIGNAL_CANCEL,
  N_SIGNALS,
} Signal;

static guint signals[N_SIGNALS];

/* Keys that leave the field: one row each. */
typedef struct
{
  guint keyval;
  Signal signal;
  int by;
} StepKey;

static const StepKey step_keys[] = {
  { GDK_KEY_Up, SIGNAL_STEP, -1 },
  { GDK_KEY_KP_Up, SIGNAL_STEP, -1 },
  { GDK_KEY_Down, SIGNAL_STEP, 1 },
  { GDK_KEY_KP_Down, SIGNAL_STEP, 1 },
  { GDK_KEY_Page_Up, SIGNAL_STEP_ZONE, -1 },
  { GDK_KEY_KP_Page_Up, SIGNAL_STEP_ZONE, -1 },
  { GDK_KEY_Page_Down, SIGNAL_STEP_ZONE, 1 },
  { GDK_KEY_KP_Page_Down, SIGNAL_STEP_ZONE, 1 },
};

static gboolean
is_enter (guint keyval)
{
  /* A scanner may end in carriage return or in line feed. */
  return keyval == GDK_KEY_Return || keyval == GDK_KEY_KP_Enter || keyval == GDK_KEY_ISO_Enter
         || keyval == GDK_KEY_Linefeed;
}

static const char *
text_of (BondReadingEntry *entry)
{
  return gtk_editable_get_text (GTK_EDITABLE (entry));
}

static gboolean
is_empty (BondReadingEntry *entry)
{
  return text_of (entry)[0] == '\0';
}

/* The verb @keyval stands for in an empty field, 0 = none. */
static char
verb_of (BondReadingEntry *entry, guint keyval)
{
  gunichar letter = g_unichar_toupper (gdk_keyval_to_unicode (keyval));

  if (letter == 0 || letter > 127 || !g_ascii_isalpha ((char)letter) || strchr (entry->verbs, (char)letter) == NULL)
    return 0;
  return (char)letter;
}

static void
insert_character (BondReadingEntry *entry, gunichar character)
{
  GtkEditable *editable = GTK_EDITABLE (entry);
  char utf8[8] = { 0 };
  int length = g_unichar_to_utf8 (character, utf8);
  int position;

  gtk_editable_delete_selection (editable);
  position = gtk_editable_get_position (editable);
  gtk_editable_insert_text (editable, utf8, length, &position);
  gtk_editable_set_position (editable, position);
}

static void
emit_verb (BondReadingEntry *entry, char letter)
{
  g_signal_emit (entry, signals[SIGNAL_VERB], 0, (int)letter);
}

static char
take_waiting_verb (BondReadingEntry *entry)
{
  char letter = entry->waiting_verb;

  entry->waiting_verb = 0;
  g_clear_handle_id (&entry->waiting_source, g_source_remove);
  return letter;
}

/* No key followed: it was a person's single letter. */
static gboolean
verb_ripe_cb (gpointer data)
{
  BondReadingEntry *entry = data;
  char letter = entry->waiting_verb;

  entry->waiting_verb = 0;
  entry->waiting_source = 0;
  emit_verb (entry, letter);
  return G_SOURCE_REMOVE;
}

/* Counts the keys of a burst; any slow or unknown gap makes it a person's typing until the field is empty again. */
static gboolean
count_key (BondReadingEntry *entry, guint32 time_ms)
{
  gboolean known = time_ms != 0 && entry->last_time_ms != 0;
  gboolean close = known && time_ms - entry->last_time_ms < BURST_GAP_MS;

  if (is_empty (entry) && entry->waiting_verb == 0)
    entry->burst_keys = time_ms != 0 ? 1 : 0;
  else if (close && entry->burst_keys > 0)
    entry->burst_keys++;
  else
    entry->burst_keys = 0;
  entry->last_time_ms = time_ms;
  return close;
}

static gboolean
begin_verb (BondReadingEntry *entry, char letter, guint32 time_ms)
{
  if (time_ms == 0)
    emit_verb (entry, letter);
  else
    {
      entry->waiting_verb = letter;
      entry->waiting_source = g_timeout_add (BURST_GAP_MS + 10, verb_ripe_cb, entry);
    }
  return TRUE;
}

/* A letter is waiting and another key came: soon after, both are text of a burst; later, the letter was meant. */
static void
settle_waiting_verb (BondReadingEntry *entry, gboolean close)
{
  char letter = take_waiting_verb (entry);

  if (close)
    insert_character (entry, (gunichar)letter);
  else
    emit_verb (entry, letter);
}

static void
enter_pressed (BondReadingEntry *entry)
{
  g_autofree char *text = g_strstrip (g_strdup (text_of (entry)));
  gboolean scanned = entry->burst_keys > BURST_MIN_KEYS;

  if (text[0] == '\0')
    return;
  if (text[0] == '#' || scanned)
    {
      const char *number = text + (text[0] == '#' ? 1 : 0);

      g_signal_emit (entry, signals[SIGNAL_JUMP], 0, number);
    }
  else
    g_signal_emit (entry, signals[SIGNAL_RECORD], 0);
}

static void
escape_pressed (BondReadingEntry *entry)
{
  if (is_empty (entry))
    g_signal_emit (entry, signals[SIGNAL_CANCEL], 0);
  else
    gtk_editable_set_text (GTK_EDITABLE (entry), "");
}

static gboolean
step_pressed (BondReadingEntry *entry, guint keyval)
{
  guint i;

  for (i = 0; i < G_N_ELEMENTS (step_keys); i++)
    if (step_keys[i].keyval == keyval)
      {
        g_signal_emit (entry, signals[step_keys[i].signal], 0, step_keys[i].by);
        return TRUE;
      }
  return FALSE;
}

static gboolean
key_pressed_cb (GtkEventControllerKey *controller, guint keyval, guint keycode, GdkModifierType state, gpointer data)
{
  BondReadingEntry *entry = data;
  gboolean again = keyval == entry->held_keyval;
  guint32 time_ms = gtk_event_controller_get_current_event_time (GTK_EVENT_CONTROLLER (controller));

  entry->held_keyval = keyval;
  if (again && !entry->composing && (is_enter (keyval) || (is_empty (entry) && verb_of (entry, keyval) != 0)))
    return TRUE;
  return bond_reading_entry_key (entry, keyval, state, time_ms);
}

static void
key_released_cb (GtkEventControllerKey *controller, guint keyval, guint keycode, GdkModifierType state, gpointer data)
{
  BOND_READING_ENTRY (data)->held_keyval = 0;
}

/* The release of a key may go elsewhere with the focus. */
static void
focus_changed_cb (GtkEventControllerFocus *controller, gpointer data)
{
  BOND_READING_ENTRY (data)->held_keyval = 0;
}

static void
preedit_changed_cb (GtkText *text, const char *preedit, gpointer data)
{
  BOND_READING_ENTRY (data)->composing = preedit != NULL && preedit[0] != '\0';
}

static void
changed_cb (GtkEditable *editable, gpointer data)
{
  BondReadingEntry *entry = BOND_READING_ENTRY (editable);

  if (entry->has_problem)
    bond_reading_entry_set_problem (entry, NULL);
}

static void
bond_reading_entry_dispose (GObject *object)
{
  take_waiting_verb (BOND_READING_ENTRY (object));
  G_OBJECT_CLASS (bond_reading_entry_parent_class)->dispose (object);
}

static void
bond_reading_entry_finalize (GObject *object)
{
  g_free (BOND_READING_ENTRY (object)->verbs);
  G_OBJECT_CLASS (bond_reading_entry_parent_class)->finalize (object);
}

static guint
add_signal (GObjectClass *klass, const char *name, GType argument)
{
  return g_signal_new (name, G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE,
                       argument == G_TYPE_NONE ? 0 : 1, argument);
}

static void
bond_reading_entry_class_init (BondReadingEntryClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);

  object_class->dispose = bond_reading_entry_dispose;
  object_class->finalize = bond_reading_entry_finalize;
  signals[SIGNAL_RECORD] = add_signal (object_class, "record", G_TYPE_NONE);
  signals[SIGNAL_JUMP] = add_signal (object_class, "jump", G_TYPE_STRING);
  signals[SIGNAL_VERB] = add_signal (object_class, "verb", G_TYPE_INT);
  signals[SIGNAL_STEP] = add_signal (object_class, "step", G_TYPE_INT);
  signals[SIGNAL_STEP_ZONE] = add_signal (object_class, "step-zone", G_TYPE_INT);
  signals[SIGNAL_CANCEL] = add_signal (object_class, "cancel", G_TYPE_NONE);
}

static void
bond_reading_entry_init (BondReadingEntry *entry)
{
  GtkEventController *key = gtk_event_controller_key_new ();
  GtkEventController *focus = gtk_event_controller_focus_new ();
  GtkEditable *text = gtk_editable_get_delegate (GTK_EDITABLE (entry));

  entry->verbs = g_strdup (DEFAULT_VERBS);
  gtk_event_controller_set_propagation_phase (key, GTK_PHASE_CAPTURE);
  g_signal_connect (key, "key-pressed", G_CALLBACK (key_pressed_cb), entry);
  g_signal_connect (key, "key-released", G_CALLBACK (key_released_cb), entry);
  gtk_widget_add_controller (GTK_WIDGET (entry), key);
  g_signal_connect (focus, "enter", G_CALLBACK (focus_changed_cb), entry);
  g_signal_connect (focus, "leave", G_CALLBACK (focus_changed_cb), entry);
  gtk_widget_add_controller (GTK_WIDGET (entry), focus);
  g_signal_connect_object (text, "preedit-changed", G_CALLBACK (preedit_changed_cb), entry, 0);
  g_signal_connect (entry, "changed", G_CALLBACK (changed_cb), NULL);

  /* Undo is the survey's: a second, silent history of the letters would hide it behind the same keys. */
  gtk_editable_set_enable_undo (GTK_EDITABLE (entry), FALSE);
  gtk_editable_set_alignment (GTK_EDITABLE (entry), 1.0f);
  gtk_entry_set_input_purpose (GTK_ENTRY (entry), GTK_INPUT_PURPOSE_NUMBER);
  gtk_entry_set_input_hints (GTK_ENTRY (entry), GTK_INPUT_HINT_NO_SPELLCHECK | GTK_INPUT_HINT_NO_EMOJI);
  gtk_widget_add_css_class (GTK_WIDGET (entry), "reading");
}

GtkWidget *
bond_reading_entry_new (void)
{
  return g_object_new (BOND_TYPE_READING_ENTRY, NULL);
}

void
bond_reading_entry_set_verbs (BondReadingEntry *entry, const char *letters)
{
  g_return_if_fail (BOND_IS_READING_ENTRY (entry));

  g_free (entry->verbs);
  entry->verbs = g_strdup (letters != NULL ? letters : "");
}

gboolean
bond_reading_entry_inject (BondReadingEntry *entry, gunichar character)
{
  g_return_val_if_fail (BOND_IS_READING_ENTRY (entry), FALSE);

  if (character == 0 || character > 127 || strchr (INJECTABLE, (char)character) == NULL)
    return FALSE;
  gtk_entry_grab_focus_without_selecting (GTK_ENTRY (entry));
  insert_character (entry, character);
  return TRUE;
}

void
bond_reading_entry_set_problem (BondReadingEntry *entry, const char *problem)
{
  GtkAccessible *accessible = GTK_ACCESSIBLE (entry);

  g_return_if_fail (BOND_IS_READING_ENTRY (entry));

  entry->has_problem = problem != NULL;
  if (problem != NULL)
    {
      gtk_widget_add_css_class (GTK_WIDGET (entry), "error");
      gtk_accessible_update_state (accessible, GTK_ACCESSIBLE_STATE_INVALID, GTK_ACCESSIBLE_INVALID_TRUE, -1);
      bond_announce (GTK_WIDGET (entry), problem);
    }
  else
    {
      gtk_widget_remove_css_class (GTK_WIDGET (entry), "error");
      gtk_accessible_reset_state (accessible, GTK_ACCESSIBLE_STATE_INVALID);
    }
}

void
bond_reading_entry_set_label (BondReadingEntry *entry, const char *label)
{
  g_return_if_fail (BOND_IS_READING_ENTRY (entry));
  g_return_if_fail (label != NULL);

  gtk_accessible_update_property (GTK_ACCESSIBLE (entry), GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);
}

void
bond_reading_entry_say (BondReadingEntry *entry, const char *text)
{
  g_return_if_fail (BOND_IS_READING_ENTRY (entry));
  g_return_if_fail (text != NULL);

  bond_announce (GTK_WIDGET (entry), text);
}

gboolean
bond_reading_entry_key (BondReadingEntry *entry, guint keyval, GdkModifierType state, guint32 time_ms)
{
  gboolean close;
  char verb;

  g_return_val_if_fail (BOND_IS_READING_ENTRY (entry), FALSE);

  if (entry->composing || (state & (GDK_CONTROL_MASK | GDK_ALT_MASK | GDK_SUPER_MASK | GDK_META_MASK)) != 0)
    return FALSE;
  if (gdk_keyval_to_unicode (keyval) == 0 && !is_enter (keyval) && keyval != GDK_KEY_Escape)
    return step_pressed (entry, keyval); /* modifiers and the like are no typing */
  close = count_key (entry, time_ms);
  if (entry->waiting_verb != 0)
    settle_waiting_verb (entry, close);
  if (is_enter (keyval))
    {
      enter_pressed (entry);
      return TRUE;
    }
  if (keyval == GDK_KEY_Escape)
    {
      escape_pressed (entry);
      return TRUE;
    }
  verb = verb_of (entry, keyval);
  if (verb != 0 && is_empty (entry))
    return begin_verb (entry, verb, time_ms);
  return FALSE;
}
