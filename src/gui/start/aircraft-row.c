/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One aircraft: who it is, its surveys on the line of time, the open one in words
 * with the marks of what needs eyes, and the way on.
 */
#include "gui/dialog.h"
#include "gui/start/row-layout.h"
#include "gui/start/rows-private.h"
#include "gui/widgets/mark-image.h"
#include "gui/words.h"
#include <glib/gi18n-lib.h>

#define MOST_MARKS 4

/* --- words --- */

static const BondSurveySummary *
newest (const BondAircraft *aircraft)
{
  return aircraft->surveys->pdata[aircraft->surveys->len - 1];
}

static const BondSurveySummary *
in_hand (const BondAircraft *aircraft)
{
  return aircraft->open != NULL ? aircraft->open : newest (aircraft);
}

char *
bond_aircraft_words (const BondAircraft *aircraft)
{
  const BondSurveySummary *summary = in_hand (aircraft);
  GString *text;

  if (summary->points == 0)
    return g_strdup (_ ("open, no points yet"));
  text = g_string_new (NULL);
  if (aircraft->open != NULL)
    g_string_append_printf (text, _ ("open, %d of %d done"), summary->done, summary->scope);
  else
    g_string_append_printf (text, _ ("nothing open, %d of %d done"), summary->done, summary->scope);
  if (summary->fail > 0)
    g_string_append_printf (text, _ (", %d fail"), summary->fail);
  return g_string_free (text, FALSE);
}

static void
add_words (GString *text, const char *more)
{
  if (more != NULL && *more != '\0')
    g_string_append_printf (text, "%s%s", text->len > 0 ? ", " : "", more);
}

static char *
second_line (const BondAircraft *aircraft)
{
  const BondSurveySummary *summary = in_hand (aircraft);
  g_autofree char *date = bond_words_date (summary->last_at != NULL ? summary->last_at : summary->made_at);
  g_autofree char *clock = bond_words_clock (summary->last_at);
  g_autofree char *last = NULL;
  GString *text = g_string_new (NULL);

  add_words (text, summary->title);
  add_words (text, summary->order);
  if (summary->last_at != NULL && summary->last_point != NULL)
    last = g_strdup_printf (_ ("last reading %s, %s %s"), summary->last_point, date, clock);
  else
    last = g_strdup (date);
  add_words (text, last);
  if (summary->trouble == BOND_TROUBLE_LOCKED)
    add_words (text, _ ("open elsewhere"));
  return g_string_free (text, FALSE);
}

/* --- the marks of what needs eyes --- */

static int
count_of (const BondSurveySummary *summary, BondMark mark)
{
  const int *by = summary->by_state;

  switch (mark)
    {
    case BOND_MARK_FAIL:
      return by[BOND_STATE_FAIL] - summary->within_fail;
    case BOND_MARK_WITHIN_FAIL:
      return summary->within_fail;
    case BOND_MARK_WITHIN_PASS:
      return summary->within_pass;
    case BOND_MARK_VISUAL_REJECT:
      return summary->visual;
    case BOND_MARK_REMEASURE:
      return by[BOND_STATE_REMEASURE];
    case BOND_MARK_SUSPECT:
      return by[BOND_STATE_SUSPECT];
    case BOND_MARK_IN_DOUBT:
      return by[BOND_STATE_IN_DOUBT];
    case BOND_MARK_NOT_CONFIRMED:
      return by[BOND_STATE_NOT_CONFIRMED];
    case BOND_MARK_CARRIED:
      return by[BOND_STATE_CARRIED_FORWARD] + by[BOND_STATE_DEFERRED];
    case BOND_MARK_NOT_ACCESSIBLE:
      return by[BOND_STATE_NOT_ACCESSIBLE];
    default:
      return 0;
    }
}

static const BondMark exceptions[] = {
  BOND_MARK_FAIL,     BOND_MARK_WITHIN_FAIL,   BOND_MARK_VISUAL_REJECT, BOND_MARK_REMEASURE,   BOND_MARK_SUSPECT,
  BOND_MARK_IN_DOUBT, BOND_MARK_NOT_CONFIRMED, BOND_MARK_CARRIED,       BOND_MARK_WITHIN_PASS, BOND_MARK_NOT_ACCESSIBLE,
};

static void
add_mark (GtkWidget *box, BondMark mark, int n, const char *words)
{
  GtkWidget *image = bond_mark_image_new ();
  g_autofree char *count = g_strdup_printf ("%d", n);
  GtkWidget *label = gtk_label_new (count);

  bond_mark_image_set_mark (BOND_MARK_IMAGE (image), mark);
  bond_mark_image_set_size (BOND_MARK_IMAGE (image), 12);
  gtk_widget_set_tooltip_text (image, words);
  gtk_widget_set_tooltip_text (label, words);
  gtk_widget_add_css_class (label, "note");
  gtk_widget_add_css_class (label, "number");
  gtk_widget_set_margin_end (label, 6);
  gtk_box_append (GTK_BOX (box), image);
  gtk_box_append (GTK_BOX (box), label);
}

/* The gravest few; what has no room is told in words. */
static GtkWidget *
exceptions_box (const BondSurveySummary *summary, GString *spoken)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 4);
  g_autoptr (GString) rest = g_string_new (NULL);
  int kinds = 0;

  for (gsize i = 0; i < G_N_ELEMENTS (exceptions); i++)
    {
      int n = count_of (summary, exceptions[i]);
      g_autofree char *words = g_strdup_printf ("%d %s", n, bond_mark_name (exceptions[i]));

      if (n <= 0)
        continue;
      add_words (spoken, words);
      if (kinds++ < MOST_MARKS)
        add_mark (box, exceptions[i], n, words);
      else
        add_words (rest, words);
    }
  if (rest->len > 0)
    {
      GtkWidget *more = bond_start_label (_ ("and more"), "note");

      gtk_widget_set_tooltip_text (more, rest->str);
      gtk_box_append (GTK_BOX (box), more);
    }
  gtk_widget_set_visible (box, kinds > 0);
  return box;
}

static gboolean
needs_a_look (const BondSurveySummary *summary)
{
  for (gsize i = 0; i < G_N_ELEMENTS (exceptions); i++)
    if (count_of (summary, exceptions[i]) > 0)
      return TRUE;
  return FALSE;
}

/* --- the columns --- */

/* The serial number and the last reading stand at the end of a line: where there is no room it breaks. */
static GtkWidget *
narrow_label (const char *text, const char *css)
{
  GtkWidget *label = bond_start_label (text, css);

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_lines (GTK_LABEL (label), 3);
  return label;
}

static GtkWidget *
who_box (const BondAircraft *aircraft)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  GtkWidget *registration = bond_start_label (aircraft->registration, "section");
  g_autofree char *what = aircraft->serial != NULL
                              ? g_strdup_printf (_ ("%s, MSN\u00a0%s"), aircraft->airframe_name, aircraft->serial)
                              : g_strdup (aircraft->airframe_name);

  /* The name of the row: never cut. */
  gtk_label_set_ellipsize (GTK_LABEL (registration), PANGO_ELLIPSIZE_NONE);
  gtk_box_append (GTK_BOX (box), registration);
  gtk_box_append (GTK_BOX (box), narrow_label (what, "note"));
  if (aircraft->invented)
    {
      GtkWidget *tag = bond_start_label (_ ("invented data"), "caption");

      gtk_widget_add_css_class (tag, "guard");
      gtk_widget_add_css_class (tag, "strong");
      gtk_box_append (GTK_BOX (box), tag);
    }
  return box;
}

static GtkWidget *
words_box (const BondAircraft *aircraft, const char *words, GtkWidget *marks)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  GtkWidget *first = narrow_label (words, aircraft->open != NULL ? "strong" : "quiet");
  g_autofree char *second = second_line (aircraft);

  /* How many fail is never cut off. */
  gtk_label_set_lines (GTK_LABEL (first), -1);
  gtk_label_set_ellipsize (GTK_LABEL (first), PANGO_ELLIPSIZE_NONE);
  gtk_box_append (GTK_BOX (box), first);
  gtk_box_append (GTK_BOX (box), narrow_label (second, "note"));
  gtk_box_append (GTK_BOX (box), marks);
  return box;
}

static GMenu *
more_menu (const BondAircraft *aircraft)
{
  GMenu *menu = g_menu_new ();
  g_autoptr (GMenu) surveys = g_menu_new ();
  g_autoptr (GMenu) acts = g_menu_new ();
  gboolean recent = FALSE;

  for (guint i = 0; i < aircraft->surveys->len; i++)
    {
      const BondSurveySummary *summary = aircraft->surveys->pdata[i];
      g_autofree char *date = bond_words_date (summary->made_at);
      g_autofree char *label
          = g_strdup_printf (_ ("%s, %s: %d of %d done"), date, summary->title != NULL ? summary->title : _ ("survey"),
                             summary->done, summary->scope);
      g_autoptr (GMenuItem) item = g_menu_item_new (label, NULL);

      g_menu_item_set_action_and_target (item, "surveys.open", "s", summary->path);
      g_menu_append_item (surveys, item);
      recent = recent || summary->recent;
    }
  if (aircraft->open != NULL)
    bond_rows_menu_act (acts, _ ("Survey Again…"), "surveys.again", newest (aircraft)->path);
  if (recent)
    bond_rows_menu_act (acts, _ ("Remove from List"), "surveys.forget", newest (aircraft)->path);
  g_menu_append_section (menu, _ ("Surveys, oldest first"), G_MENU_MODEL (surveys));
  g_menu_append_section (menu, NULL, G_MENU_MODEL (acts));
  return menu;
}

static GtkWidget *
acts_box (const BondAircraft *aircraft)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 4);
  GtkWidget *more = gtk_menu_button_new ();
  g_autoptr (GMenu) menu = more_menu (aircraft);
  const char *registration = aircraft->registration != NULL ? aircraft->registration : "";
  g_autofree char *more_name = g_strdup_printf (_ ("All surveys of %s"), registration);
  GtkWidget *act;

  if (aircraft->open != NULL)
    act = bond_rows_button (_ ("Continue"), "surveys.open", aircraft->open->path, registration);
  else
    act = bond_rows_button (_ ("Survey Again"), "surveys.again", newest (aircraft)->path, registration);
  gtk_widget_set_hexpand (act, TRUE);
  gtk_widget_set_halign (act, GTK_ALIGN_END);
  gtk_menu_button_set_icon_name (GTK_MENU_BUTTON (more), "view-more-symbolic");
  gtk_menu_button_set_has_frame (GTK_MENU_BUTTON (more), FALSE);
  gtk_menu_button_set_menu_model (GTK_MENU_BUTTON (more), G_MENU_MODEL (menu));
  gtk_widget_set_tooltip_text (more, more_name);
  bond_name_widget (more, more_name);
  gtk_box_append (GTK_BOX (box), act);
  gtk_box_append (GTK_BOX (box), more);
  gtk_widget_set_valign (box, GTK_ALIGN_CENTER);
  return box;
}

static char *
search_text (const BondAircraft *aircraft)
{
  GString *text = g_string_new (NULL);

  add_words (text, aircraft->registration);
  add_words (text, aircraft->airframe_name);
  add_words (text, aircraft->serial);
  for (guint i = 0; i < aircraft->surveys->len; i++)
    {
      const BondSurveySummary *summary = aircraft->surveys->pdata[i];

      add_words (text, summary->title);
      add_words (text, summary->order);
    }
  return g_string_free (text, FALSE);
}

GtkWidget *
bond_aircraft_row_new (const BondAircraft *aircraft, const BondStartColumns *columns)
{
  g_autofree char *words = bond_aircraft_words (aircraft);
  g_autofree char *search = search_text (aircraft);
  g_autoptr (GString) spoken = g_string_new (NULL);
  GtkWidget *who = who_box (aircraft);
  GtkWidget *acts = acts_box (aircraft);
  GtkWidget *timeline = bond_timeline_new (aircraft->surveys, &columns->span);
  GtkWidget *marks = exceptions_box (in_hand (aircraft), spoken);
  GtkWidget *text = words_box (aircraft, words, marks);
  GtkWidget *parts[] = { who, timeline, text, acts };
  g_autofree char *name = g_strdup_printf ("%s, %s, %s%s%s", aircraft->registration, aircraft->airframe_name, words,
                                           spoken->len > 0 ? ": " : "", spoken->str);
  BondRowInfo info = { .path = in_hand (aircraft)->path,
                       .search = search,
                       .opens = TRUE,
                       .is_open = aircraft->open != NULL,
                       .needs_look = needs_a_look (in_hand (aircraft)),
                       .in_columns = TRUE,
                       .words = text };

  gtk_widget_set_valign (timeline, GTK_ALIGN_CENTER);
  gtk_widget_set_valign (text, GTK_ALIGN_CENTER);
  gtk_widget_set_valign (who, GTK_ALIGN_CENTER);
  gtk_size_group_add_widget (columns->act, acts);
  return bond_rows_row (parts, G_N_ELEMENTS (parts), name, &info);
}

GtkWidget *
bond_aircraft_row_header (const BondStartColumns *columns)
{
  GtkWidget *box = bond_row_columns_new ();
  GtkWidget *who = bond_start_label (NULL, NULL), *words = bond_start_label (NULL, NULL);
  GtkWidget *act = bond_start_label (NULL, NULL), *axis = bond_timeline_new_axis (&columns->span);

  gtk_size_group_add_widget (columns->act, act);
  gtk_box_append (GTK_BOX (box), who);
  gtk_box_append (GTK_BOX (box), axis);
  gtk_box_append (GTK_BOX (box), words);
  gtk_box_append (GTK_BOX (box), act);
  return box;
}
