/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What may be typed into the field, in the locales the program is run in: every line
 * through the widget and the walk, and what is on record afterwards.  The program is
 * asked once in each locale; the mark of the locale decides about "1,250" and "1.250".
 */
#include "gui/widgets/reading-entry.h"
#include "screen.h"
#include "window-fixture.h"
#include <locale.h>

typedef enum
{
  READING, /* recorded with @nohm */
  PAIR,    /* both halves, mean @nohm */
  OVER,    /* recorded as above @nohm */
  SUSPECT, /* recorded, no verdict but suspect */
  ASKED,   /* a question; nothing on record, Enter does nothing */
  REFUSED, /* nothing on record, the text stays */
  JUMP,    /* 521-J03 in hand; nothing on record */
} Outcome;

#define MARK_POINT 1 /* only where the decimal mark is a point */
#define MARK_COMMA 2

static const struct
{
  const char *typed;
  Outcome outcome;
  BondOhm nohm;
  int only; /* 0 = in every locale */
} lines[] = {
  { "1.84", READING, 1840000, 0 },
  { "1,84", READING, 1840000, 0 },
  { "840u", READING, 840000, 0 },
  { "840\302\265", REFUSED, 0, 0 },                  /* half a unit is none */
  { "840\302\265\316\251", READING, 840000, 0 },     /* U+00B5 U+03A9 */
  { "840\316\274\316\251", READING, 840000, 0 },     /* U+03BC U+03A9 */
  { "840\302\265\342\204\246", READING, 840000, 0 }, /* U+00B5 U+2126 */
  { "840uOhm", READING, 840000, 0 },
  { "1.84m\316\251", READING, 1840000, 0 },
  { "1.84m", READING, 1840000, 0 },
  { "1.84M", REFUSED, 0, 0 }, /* no megohmmeter in hand */
  { "1.84k", REFUSED, 0, 0 },
  { "0.02o", READING, 20000000, 0 },
  { ">30", OVER, 30000000, 0 },
  { "1.84 1.82", PAIR, 1830000, 0 },
  { "-1.84", SUSPECT, -1840000, 0 },
  { "0", ASKED, 0, 0 },
  { "1,250", ASKED, 0, MARK_POINT },
  { "1.250", ASKED, 0, MARK_COMMA },
  { "1.8.4", REFUSED, 0, 0 },
  { "1.250,5", REFUSED, 0, 0 },
  { "1e-3", REFUSED, 0, 0 },
  { "abc", REFUSED, 0, 0 },
  { "\331\241\331\242", REFUSED, 0, 0 }, /* Arabic-Indic 12 */
  { "521-03", JUMP, 0, 0 },
  { "#521-03", JUMP, 0, 0 },
  { "521-J03", JUMP, 0, 0 },
};

static guint
n_entries (WindowFixture *fixture)
{
  return bond_survey_get_entries (bond_walk_get_survey (bond_survey_window_get_walk (fixture->window)))->len;
}

static const char *
field_text (WindowFixture *fixture)
{
  return gtk_editable_get_text (bond_reading_panel_get_entry (window_panel_of (fixture)));
}

static const BondReading *
newest_reading (WindowFixture *fixture)
{
  GPtrArray *entries = bond_survey_get_entries (bond_walk_get_survey (bond_survey_window_get_walk (fixture->window)));

  return bond_entry_get_reading (g_ptr_array_index (entries, entries->len - 1));
}

static void
check_recorded (WindowFixture *fixture, gsize i)
{
  BondPoint *point
      = bond_survey_find_number (bond_walk_get_survey (bond_survey_window_get_walk (fixture->window)), "521-J01");
  const BondPlaceResult *result = bond_point_get_worst (point);

  if (lines[i].outcome == PAIR)
    g_assert_cmpint (bond_mean_nohm (&result->last->mean), ==, lines[i].nohm);
  else
    g_assert_cmpint (newest_reading (fixture)->quantity.nohm, ==, lines[i].nohm);
  g_assert_cmpint (newest_reading (fixture)->quantity.qualifier, ==,
                   lines[i].outcome == OVER ? BOND_QUALIFIER_OVER : BOND_QUALIFIER_NONE);
  if (lines[i].outcome == SUSPECT)
    g_assert_cmpint (result->last->outcome, ==, BOND_OUTCOME_SUSPECT);
  g_assert_cmpstr (field_text (fixture), ==, "");
}

static void
check_line (WindowFixture *fixture, gsize i)
{
  BondWalk *walk = bond_survey_window_get_walk (fixture->window);
  guint before = n_entries (fixture);
  guint more = lines[i].outcome <= SUSPECT ? (lines[i].outcome == PAIR ? 2 : 1) : 0;

  g_test_message ("%s", lines[i].typed);
  bond_walk_jump (walk, "521-J01");
  bond_walk_read_again (walk);
  window_keys (fixture, "\033\033"); /* whatever was left */
  bond_walk_jump (walk, "521-J01");
  bond_walk_read_again (walk);
  gtk_editable_set_text (bond_reading_panel_get_entry (window_panel_of (fixture)), "");
  window_keys (fixture, lines[i].typed);
  window_keys (fixture, "\n");
  if (lines[i].outcome == READING && n_entries (fixture) == before)
    { /* another range or unit was asked about first: the answer that keeps what was typed */
      g_assert_true (bond_reading_panel_get_said (window_panel_of (fixture))[0] != '\0');
      g_assert_nonnull (window_find_of_type (GTK_WIDGET (window_panel_of (fixture)), GTK_TYPE_BUTTON, "Type Again"));
      return;
    }
  g_assert_cmpint (n_entries (fixture), ==, before + more);
  if (more > 0)
    check_recorded (fixture, i);
  else if (lines[i].outcome == JUMP)
    g_assert_cmpstr (window_number_in_hand (fixture), ==, "521-J03");
  else
    {
      g_assert_cmpstr (field_text (fixture), ==, lines[i].typed);
      g_assert_cmpstr (bond_reading_panel_get_said (window_panel_of (fixture)), !=, "");
      window_keys (fixture, "\n"); /* habit answers nothing */
      g_assert_cmpint (n_entries (fixture), ==, before);
    }
}

static void
test_lines (WindowFixture *fixture, gconstpointer data)
{
  int mark = bond_locale_mark () == ',' ? MARK_COMMA : MARK_POINT;

  g_test_message ("decimal mark %c", bond_locale_mark ());
  window_begin (fixture);
  for (gsize i = 0; i < G_N_ELEMENTS (lines); i++)
    if (lines[i].only == 0 || lines[i].only == mark)
      check_line (fixture, i);
}

/* Asked once: after the answer the other mark is a decimal mark for this walk. */
static void
test_mark_once (WindowFixture *fixture, gconstpointer data)
{
  const char *typed = bond_locale_mark () == ',' ? "1.250" : "1,250";
  guint before;

  window_begin (fixture);
  before = n_entries (fixture);
  window_keys (fixture, typed);
  window_keys (fixture, "\n");
  g_assert_cmpint (n_entries (fixture), ==, before);
  window_press (window_panel_of (fixture), "Decimal Mark");
  window_wait_written (fixture);
  if (n_entries (fixture) == before) /* three digits are more than the 30 mΩ range shows */
    window_keys (fixture, "\033\033");
  gtk_editable_set_text (bond_reading_panel_get_entry (window_panel_of (fixture)), typed);
  window_keys (fixture, "\n");
  g_assert_null (strstr (bond_reading_panel_get_said (window_panel_of (fixture)), "decimal mark?"));
}

/* Empty: Enter is nothing. */
static void
test_empty (WindowFixture *fixture, gconstpointer data)
{
  guint before;

  window_begin (fixture);
  before = n_entries (fixture);
  window_keys (fixture, "\n\n");
  g_assert_cmpint (n_entries (fixture), ==, before);
  g_assert_cmpstr (window_number_in_hand (fixture), ==, "521-J01");
}

static void
burst (WindowFixture *fixture, const char *text, guint32 at, guint enter)
{
  BondReadingEntry *entry = BOND_READING_ENTRY (bond_reading_panel_get_entry (window_panel_of (fixture)));

  for (; *text != '\0'; text++, at += 12)
    if (!bond_reading_entry_key (entry, gdk_unicode_to_keyval ((guint)*text), 0, at))
      {
        int position = gtk_editable_get_position (GTK_EDITABLE (entry));

        gtk_editable_insert_text (GTK_EDITABLE (entry), text, 1, &position);
        gtk_editable_set_position (GTK_EDITABLE (entry), position);
      }
  bond_reading_entry_key (entry, enter, 0, at);
  window_wait_written (fixture);
}

/* A scanner, whichever key ends its burst, goes to a point or says that there is none; it never records. */
static void
test_scanner (WindowFixture *fixture, gconstpointer data)
{
  static const guint ends[] = { GDK_KEY_Return, GDK_KEY_KP_Enter, GDK_KEY_Linefeed };
  guint before;

  window_begin (fixture);
  before = n_entries (fixture);
  for (gsize i = 0; i < G_N_ELEMENTS (ends); i++)
    {
      guint32 at = 10000 * ((guint32)i + 1);

      bond_walk_jump (bond_survey_window_get_walk (fixture->window), "521-J01");
      burst (fixture, "521-J03", at, ends[i]);
      g_assert_cmpstr (window_number_in_hand (fixture), ==, "521-J03");
      burst (fixture, "40063", at + 3000, ends[i]);
      g_assert_cmpstr (bond_reading_panel_get_said (window_panel_of (fixture)), ==,
                       "There is no point 40063 in this survey.");
      gtk_editable_set_text (bond_reading_panel_get_entry (window_panel_of (fixture)), "");
    }
  g_assert_cmpint (n_entries (fixture), ==, before);
}

/* The locale is that of the process from its start: the other two are run as their own. */
static void
test_other_locale (gconstpointer data)
{
  g_autofree char *before = g_strdup (setlocale (LC_ALL, NULL));

  if (g_getenv ("G_TEST_BUILDDIR") != NULL)
    g_setenv ("LOCPATH", g_getenv ("G_TEST_BUILDDIR"), TRUE); /* where the build put them */
  if (setlocale (LC_ALL, data) == NULL)
    {
      g_test_skip ("this locale is not installed");
      return;
    }
  {
    WindowFixture fixture = { 0 };

    window_set_up (&fixture, NULL);
    g_assert_cmpint (bond_locale_mark (), ==, ',');
    test_lines (&fixture, NULL);
    window_tear_down (&fixture, NULL);
  }
  setlocale (LC_ALL, before);
}

int
main (int argc, char **argv)
{
  g_setenv ("GTK_A11Y", "test", TRUE);
  g_setenv ("GSK_RENDERER", "cairo", TRUE);
  g_unsetenv ("DBUS_SESSION_BUS_ADDRESS");
  g_test_init (&argc, &argv, NULL);
  gtk_init ();
#define ADD(name, test) g_test_add ("/gui/grammar/" name, WindowFixture, NULL, window_set_up, test, window_tear_down)
  ADD ("lines", test_lines);
  ADD ("mark-once", test_mark_once);
  ADD ("empty", test_empty);
  ADD ("scanner", test_scanner);
  g_test_add_data_func ("/gui/grammar/de_DE", "de_DE.UTF-8", test_other_locale);
  g_test_add_data_func ("/gui/grammar/fr_FR", "fr_FR.UTF-8", test_other_locale);
  return g_test_run ();
}
