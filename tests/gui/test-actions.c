/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The one table of acts: every letter and every key means one thing, the window knows
 * every act it names, and the list of keys (H) shows them all.
 */
#include "gui/actions.h"
#include "screen.h"
#include "window-fixture.h"

/* Of the letters of ui.md 6.3 under its opening note, what each stands for; others are our own. */
static const struct
{
  char letter;
  const char *action;
} letters[] = {
  { 'R', "win.read-again" },       { 'S', "win.skip" }, { 'X', "win.not-accessible" }, { 'N', "win.note" },
  { 'Z', "win.zoom-zone" },        { 'B', "win.back" }, { 'W', "win.rework" },         { 'L', "win.leave-failed" },
  { 'V', "win.void-reading" },     { 'F', "win.find" }, { 'H', "win.shortcuts" },      { 'D', "win.disposition" },
  { 'T', "win.accept-deviation" },
};

static void
test_letters (void)
{
  gsize n;
  const BondActionInfo *info = bond_actions (&n);
  guint32 taken = 0;

  for (gsize i = 0; i < n; i++)
    {
      if (info[i].letter == 0)
        continue;
      g_assert_true (g_ascii_isupper (info[i].letter));
      g_assert_cmpint (taken & (1u << (info[i].letter - 'A')), ==, 0);
      taken |= 1u << (info[i].letter - 'A');
    }
  /* What follows digits as a unit is no letter of an act where it could be meant: "u" in an empty field is Undo. */
  g_assert_cmpint (taken & (1u << ('O' - 'A')), ==, 0);
  for (gsize i = 0; i < G_N_ELEMENTS (letters); i++)
    g_assert_cmpstr (bond_action_for_letter ((gunichar)letters[i].letter), ==, letters[i].action);
}

static gboolean
meet (const BondActionInfo *a, const BondActionInfo *b)
{
  gboolean other_window = (g_str_has_prefix (a->name, "start.") && g_str_has_prefix (b->name, "win."))
                          || (g_str_has_prefix (a->name, "win.") && g_str_has_prefix (b->name, "start."));

  return !other_window && g_strcmp0 (a->accel, b->accel) == 0;
}

static void
test_keys (void)
{
  gsize n;
  const BondActionInfo *info = bond_actions (&n);

  for (gsize i = 0; i < n; i++)
    {
      guint key = 0;
      GdkModifierType modifiers = 0;

      if (info[i].accel == NULL)
        continue;
      g_assert_true (gtk_accelerator_parse (info[i].accel, &key, &modifiers) && key != 0);
      for (gsize j = i + 1; j < n; j++)
        if (info[j].accel != NULL && meet (&info[i], &info[j]))
          g_error ("%s and %s share %s", info[i].name, info[j].name, info[i].accel);
    }
}

/* Installed by its class, or an action of its own. */
static gboolean
knows (BondSurveyWindow *window, const char *name)
{
  GType owner;
  const char *known, *property;
  const GVariantType *parameter;

  for (guint i = 0;
       gtk_widget_class_query_action (GTK_WIDGET_GET_CLASS (window), i, &owner, &known, &parameter, &property); i++)
    if (g_str_equal (known, name))
      return TRUE;
  return g_action_group_has_action (G_ACTION_GROUP (window), name + strlen ("win."));
}

static void
test_list (WindowFixture *fixture, gconstpointer data)
{
  gsize n;
  const BondActionInfo *info = bond_actions (&n);
  GtkWidget *list;

  window_begin (fixture);
  window_keys (fixture, "h");
  screen_spin (30);
  list = GTK_WIDGET (window_newest_dialog ());
  g_assert_nonnull (list);
  for (gsize i = 0; i < n; i++)
    {
      g_autofree char *name = g_strdup (info[i].name);
      char *target = strstr (name, "::");
      const char *const *accels = NULL;
      g_auto (GStrv) set = gtk_application_get_accels_for_action (GTK_APPLICATION (fixture->application), info[i].name);

      if (target != NULL)
        *target = '\0';
      if (g_str_has_prefix (name, "win.") && !knows (fixture->window, name))
        g_error ("the window has no act %s", name);
      accels = (const char *const *)set;
      g_assert_cmpint (info[i].accel != NULL, ==, accels != NULL && accels[0] != NULL);
      if ((info[i].accel != NULL || info[i].letter != 0) && !window_says (list, info[i].help))
        g_error ("“%s” is not in the list of keys", info[i].help);
    }
}

int
main (int argc, char **argv)
{
  g_setenv ("GTK_A11Y", "test", TRUE);
  g_setenv ("GSK_RENDERER", "cairo", TRUE);
  g_unsetenv ("DBUS_SESSION_BUS_ADDRESS");
  g_test_init (&argc, &argv, NULL);
  gtk_init ();
  g_test_add_func ("/gui/actions/letters", test_letters);
  g_test_add_func ("/gui/actions/keys", test_keys);
  g_test_add ("/gui/actions/list", WindowFixture, NULL, window_set_up, test_list, window_tear_down);
  return g_test_run ();
}
