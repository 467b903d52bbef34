/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The reading field: which keys act, which are text, and that no character is lost.
 * Keys are given as the key controller gives them; what is not taken is typed.
 */
#include "gui/widgets/reading-entry.h"
#include "screen.h"

#define SLOW 180 /* ms between two keys of a person */
#define FAST 12  /* of a scanner */

typedef struct
{
  BondReadingEntry *entry;
  GtkWindow *window;
  GString *heard; /* one word a signal */
  guint32 now;
} Field;

static void
record_cb (BondReadingEntry *entry, gpointer data)
{
  g_string_append_printf (data, "record(%s) ", gtk_editable_get_text (GTK_EDITABLE (entry)));
}

static void
jump_cb (BondReadingEntry *entry, const char *text, gpointer data)
{
  g_string_append_printf (data, "jump(%s) ", text);
}

static void
verb_cb (BondReadingEntry *entry, int letter, gpointer data)
{
  g_string_append_printf (data, "verb(%c) ", letter);
}

static void
step_cb (BondReadingEntry *entry, int by, gpointer data)
{
  g_string_append_printf (data, "step(%d) ", by);
}

static void
step_zone_cb (BondReadingEntry *entry, int by, gpointer data)
{
  g_string_append_printf (data, "zone(%d) ", by);
}

static void
cancel_cb (BondReadingEntry *entry, gpointer data)
{
  g_string_append (data, "cancel ");
}

static void
set_up (Field *field, gconstpointer data)
{
  field->entry = BOND_READING_ENTRY (bond_reading_entry_new ());
  field->window = screen_show (GTK_WIDGET (field->entry), 300, 80);
  field->heard = g_string_new (NULL);
  field->now = 1000;
  g_signal_connect (field->entry, "record", G_CALLBACK (record_cb), field->heard);
  g_signal_connect (field->entry, "jump", G_CALLBACK (jump_cb), field->heard);
  g_signal_connect (field->entry, "verb", G_CALLBACK (verb_cb), field->heard);
  g_signal_connect (field->entry, "step", G_CALLBACK (step_cb), field->heard);
  g_signal_connect (field->entry, "step-zone", G_CALLBACK (step_zone_cb), field->heard);
  g_signal_connect (field->entry, "cancel", G_CALLBACK (cancel_cb), field->heard);
}

static void
tear_down (Field *field, gconstpointer data)
{
  gtk_window_destroy (field->window);
  g_string_free (field->heard, TRUE);
}

static void
press (Field *field, guint keyval, guint gap)
{
  GtkEditable *editable = GTK_EDITABLE (field->entry);
  gunichar character = gdk_keyval_to_unicode (keyval);
  char utf8[8] = { 0 };
  int position = -1;

  field->now += gap;
  if (bond_reading_entry_key (field->entry, keyval, 0, field->now) || character == 0)
    return;
  g_unichar_to_utf8 (character, utf8);
  gtk_editable_insert_text (editable, utf8, -1, &position);
  gtk_editable_set_position (editable, -1);
}

static void
type (Field *field, const char *text, guint gap)
{
  for (; *text != '\0'; text++)
    press (field, gdk_unicode_to_keyval ((guint32)*text), gap);
}

#define assert_text(field, expected)                                                                                   \
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE ((field)->entry)), ==, (expected))
#define assert_heard(field, expected) g_assert_cmpstr ((field)->heard->str, ==, (expected))

static void
test_enter_records_and_keeps_the_text (Field *field, gconstpointer data)
{
  type (field, "1.84", SLOW);
  press (field, GDK_KEY_Return, SLOW);
  assert_heard (field, "record(1.84) ");
  assert_text (field, "1.84"); /* only the window clears it, once the entry is durable */
  press (field, GDK_KEY_KP_Enter, SLOW);
  assert_heard (field, "record(1.84) record(1.84) ");
}

static void
test_enter_on_nothing_is_nothing (Field *field, gconstpointer data)
{
  press (field, GDK_KEY_Return, SLOW);
  type (field, "  ", SLOW);
  press (field, GDK_KEY_Return, SLOW);
  assert_heard (field, "");
}

static void
test_escape_empties_then_cancels (Field *field, gconstpointer data)
{
  type (field, "3.1", SLOW);
  press (field, GDK_KEY_Escape, SLOW);
  assert_text (field, "");
  assert_heard (field, "");
  press (field, GDK_KEY_Escape, SLOW);
  assert_heard (field, "cancel ");
}

static void
test_arrows_walk_and_keep_the_text (Field *field, gconstpointer data)
{
  type (field, "2", SLOW);
  press (field, GDK_KEY_Up, SLOW);
  press (field, GDK_KEY_Down, SLOW);
  press (field, GDK_KEY_Page_Up, SLOW);
  press (field, GDK_KEY_KP_Page_Down, SLOW);
  assert_heard (field, "step(-1) step(1) zone(-1) zone(1) ");
  assert_text (field, "2");
}

static void
test_letters_act_in_an_empty_field_only (Field *field, gconstpointer data)
{
  press (field, GDK_KEY_r, SLOW);
  screen_spin (90); /* a letter waits to see whether a scanner's burst follows */
  assert_heard (field, "verb(R) ");
  assert_text (field, "");
  type (field, "840u", SLOW);
  press (field, GDK_KEY_r, SLOW);
  screen_spin (90);
  assert_heard (field, "verb(R) ");
  assert_text (field, "840ur");
}

static void
test_a_letter_acts_before_what_follows (Field *field, gconstpointer data)
{
  press (field, GDK_KEY_s, SLOW);
  type (field, "1.2", SLOW);
  assert_heard (field, "verb(S) ");
  assert_text (field, "1.2");
}

static void
test_other_letters_are_text (Field *field, gconstpointer data)
{
  type (field, "OL", SLOW);
  screen_spin (90);
  assert_heard (field, "");
  assert_text (field, "OL");
}

static void
test_letters_can_be_turned_off (Field *field, gconstpointer data)
{
  bond_reading_entry_set_verbs (field->entry, NULL);
  press (field, GDK_KEY_r, SLOW);
  screen_spin (90);
  assert_heard (field, "");
  assert_text (field, "r");
}

static void
test_a_burst_can_only_jump (Field *field, gconstpointer data)
{
  type (field, "561-J04", FAST);
  press (field, GDK_KEY_Return, FAST);
  assert_heard (field, "jump(561-J04) ");
}

static void
test_a_burst_of_digits_is_no_reading (Field *field, gconstpointer data)
{
  type (field, "40063813", FAST);
  press (field, GDK_KEY_Return, FAST);
  assert_heard (field, "jump(40063813) ");
}

static void
test_a_burst_that_begins_with_a_verb_is_no_verb (Field *field, gconstpointer data)
{
  type (field, "RS104", FAST);
  press (field, GDK_KEY_Return, FAST);
  screen_spin (90);
  assert_heard (field, "jump(RS104) ");
  assert_text (field, "RS104");
}

static void
test_a_slow_enter_makes_it_a_persons (Field *field, gconstpointer data)
{
  type (field, "1.84", FAST);
  press (field, GDK_KEY_Return, SLOW);
  assert_heard (field, "record(1.84) ");
}

static void
test_two_quick_keys_are_no_burst (Field *field, gconstpointer data)
{
  type (field, "15", FAST); /* two hands on a keypad */
  press (field, GDK_KEY_KP_Enter, FAST);
  assert_heard (field, "record(15) ");
}

static void
test_a_code_jumps (Field *field, gconstpointer data)
{
  type (field, "#561-J04", SLOW);
  press (field, GDK_KEY_Return, SLOW);
  assert_heard (field, "jump(561-J04) ");
}

static void
test_control_keys_pass (Field *field, gconstpointer data)
{
  g_assert_false (bond_reading_entry_key (field->entry, GDK_KEY_z, GDK_CONTROL_MASK, 0));
  g_assert_false (bond_reading_entry_key (field->entry, GDK_KEY_r, GDK_ALT_MASK, 0));
  assert_heard (field, "");
}

static void
test_injected_digits_arrive (Field *field, gconstpointer data)
{
  g_assert_true (bond_reading_entry_inject (field->entry, '1'));
  g_assert_true (bond_reading_entry_inject (field->entry, ','));
  g_assert_true (bond_reading_entry_inject (field->entry, '8'));
  g_assert_false (bond_reading_entry_inject (field->entry, 'r'));
  g_assert_false (bond_reading_entry_inject (field->entry, 0x3a9));
  assert_text (field, "1,8");
  g_assert_true (gtk_widget_has_focus (GTK_WIDGET (gtk_editable_get_delegate (GTK_EDITABLE (field->entry)))));
}

static void
test_a_problem_is_shown_and_cleared_by_typing (Field *field, gconstpointer data)
{
  GtkAccessible *accessible = GTK_ACCESSIBLE (field->entry);

  type (field, "1.8.4", SLOW);
  bond_reading_entry_set_problem (field->entry, "“1.8.4” has two decimal marks. Nothing was recorded.");
  g_assert_true (gtk_widget_has_css_class (GTK_WIDGET (field->entry), "error"));
  gtk_test_accessible_assert_state (accessible, GTK_ACCESSIBLE_STATE_INVALID, GTK_ACCESSIBLE_INVALID_TRUE);
  assert_text (field, "1.8.4");
  press (field, GDK_KEY_5, SLOW);
  g_assert_false (gtk_widget_has_css_class (GTK_WIDGET (field->entry), "error"));
  g_assert_false (gtk_test_accessible_has_state (accessible, GTK_ACCESSIBLE_STATE_INVALID));
}

static void
test_it_has_a_name_and_no_undo_of_its_own (Field *field, gconstpointer data)
{
  GtkAccessible *accessible = GTK_ACCESSIBLE (field->entry);

  bond_reading_entry_set_label (field->entry, "Reading for 541-J04, reverse, in milliohm");
  gtk_test_accessible_assert_role (accessible, GTK_ACCESSIBLE_ROLE_TEXT_BOX);
  gtk_test_accessible_assert_property (accessible, GTK_ACCESSIBLE_PROPERTY_LABEL,
                                       "Reading for 541-J04, reverse, in milliohm");
  bond_reading_entry_say (field->entry, "541-J04 pass, 1.83 milliohm.");
  g_assert_false (gtk_editable_get_enable_undo (GTK_EDITABLE (field->entry)));
}

#define ADD(path, test) g_test_add (path, Field, NULL, set_up, test, tear_down)

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  ADD ("/reading-entry/enter", test_enter_records_and_keeps_the_text);
  ADD ("/reading-entry/enter-empty", test_enter_on_nothing_is_nothing);
  ADD ("/reading-entry/escape", test_escape_empties_then_cancels);
  ADD ("/reading-entry/arrows", test_arrows_walk_and_keep_the_text);
  ADD ("/reading-entry/letters", test_letters_act_in_an_empty_field_only);
  ADD ("/reading-entry/letter-then-digits", test_a_letter_acts_before_what_follows);
  ADD ("/reading-entry/other-letters", test_other_letters_are_text);
  ADD ("/reading-entry/letters-off", test_letters_can_be_turned_off);
  ADD ("/reading-entry/burst", test_a_burst_can_only_jump);
  ADD ("/reading-entry/burst-digits", test_a_burst_of_digits_is_no_reading);
  ADD ("/reading-entry/burst-verb", test_a_burst_that_begins_with_a_verb_is_no_verb);
  ADD ("/reading-entry/slow-enter", test_a_slow_enter_makes_it_a_persons);
  ADD ("/reading-entry/two-keys", test_two_quick_keys_are_no_burst);
  ADD ("/reading-entry/code", test_a_code_jumps);
  ADD ("/reading-entry/control", test_control_keys_pass);
  ADD ("/reading-entry/inject", test_injected_digits_arrive);
  ADD ("/reading-entry/problem", test_a_problem_is_shown_and_cleared_by_typing);
  ADD ("/reading-entry/name", test_it_has_a_name_and_no_undo_of_its_own);
  return g_test_run ();
}
