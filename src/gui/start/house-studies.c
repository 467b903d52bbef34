/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How much re-seating the probes scatters a reading is found by a study of the
 * house's own, for each class of joint; it goes into every uncertainty budget as its
 * Type A part.  What a budget makes of it is core's.
 */
#include "gui/start/house-studies.h"
#include "core/limit.h"
#include "core/number.h"
#include "core/ohm.h"
#include "gui/dialog.h"
#include "gui/start/detail.h"
#include <glib/gi18n-lib.h>

#define NOHM_PER_UOHM 1000.0
#define ENTRY_CHARS 6
/* As many as the file allows, and a scatter no joint has. */
#define MOST_PLACINGS 100000
#define MOST_UOHM 1000000.0

/* --- figures as text --- */

static char *
spread_text (double nohm)
{
  char text[BOND_NUMBER_SIZE];
  char mark = bond_locale_mark ();

  return g_strdelimit (g_strdup (bond_number_to_text (nohm / NOHM_PER_UOHM, text)), ".", mark);
}

static gboolean
parse_spread (const char *text, double *nohm)
{
  g_autofree char *plain = g_strdelimit (g_strdup (text), ",", '.');
  double uohm = 0;

  if (!bond_number_parse (plain, &uohm) || uohm <= 0 || uohm > MOST_UOHM)
    return FALSE;
  *nohm = uohm * NOHM_PER_UOHM;
  return TRUE;
}

static gboolean
parse_count (const char *text, int *n)
{
  gint64 value = 0;

  if (!g_ascii_string_to_signed (text, 10, 2, MOST_PLACINGS, &value, NULL))
    return FALSE;
  *n = (int)value;
  return TRUE;
}

/* --- the lines --- */

static GtkEditable *
add_entry (GtkGrid *grid, int column, int row, const char *name, GCallback typed, gpointer data)
{
  GtkWidget *entry = gtk_entry_new ();

  gtk_editable_set_width_chars (GTK_EDITABLE (entry), ENTRY_CHARS);
  gtk_editable_set_max_width_chars (GTK_EDITABLE (entry), ENTRY_CHARS);
  gtk_widget_add_css_class (entry, "number");
  bond_name_widget (entry, name);
  gtk_grid_attach (grid, entry, column, row, 1, 1);
  g_signal_connect_swapped (entry, "changed", typed, data);
  return GTK_EDITABLE (entry);
}

static void
add_word (GtkGrid *grid, int column, int row, const char *text)
{
  GtkWidget *label = bond_detail_label (text, NULL);

  gtk_label_set_yalign (GTK_LABEL (label), 0.5F);
  gtk_grid_attach (grid, label, column, row, 1, 1);
}

void
bond_house_studies_build (BondHouseStudies *studies, GtkBox *box, GCallback typed, gpointer data)
{
  GtkGrid *grid = GTK_GRID (gtk_grid_new ());

  g_return_if_fail (studies != NULL);
  bond_detail_heading (box, _ ("Probe-placing studies"));
  bond_detail_text (box,
                    _ ("Standard deviation of one joint measured again and again, the probes re-seated each time. "
                       "Where none was made, every uncertainty budget says: probe placing not included."),
                    "note");
  gtk_grid_set_column_spacing (grid, 12);
  gtk_grid_set_row_spacing (grid, 8);
  for (int i = 0; i < BOND_N_CLASSES; i++)
    {
      const char *klass = bond_class_name ((BondClass)i);
      g_autofree char *spread = g_strdup_printf (_ ("Standard deviation in micro-ohm, %s"), klass);
      g_autofree char *count = g_strdup_printf (_ ("Placings, %s"), klass);

      add_word (grid, 0, i, klass);
      studies->spread[i] = add_entry (grid, 1, i, spread, typed, data);
      add_word (grid, 2, i, _ ("µΩ from"));
      studies->count[i] = add_entry (grid, 3, i, count, typed, data);
      add_word (grid, 4, i, _ ("placings"));
    }
  gtk_box_append (box, GTK_WIDGET (grid));
}

void
bond_house_studies_show (BondHouseStudies *studies, const BondHouse *house)
{
  g_return_if_fail (studies != NULL && house != NULL);
  for (int i = 0; i < BOND_N_CLASSES; i++)
    {
      gboolean made = house->placing[i].n > 0;
      g_autofree char *spread = made ? spread_text (house->placing[i].s) : g_strdup ("");
      g_autofree char *count = made ? g_strdup_printf ("%d", house->placing[i].n) : g_strdup ("");

      gtk_editable_set_text (studies->spread[i], spread);
      gtk_editable_set_text (studies->count[i], count);
    }
}

char *
bond_house_studies_read (BondHouseStudies *studies, BondHouse *house, GtkWidget **wrong)
{
  g_return_val_if_fail (studies != NULL && house != NULL && wrong != NULL, NULL);
  for (int i = 0; i < BOND_N_CLASSES; i++)
    {
      g_autofree char *spread = bond_dialog_text (studies->spread[i]);
      g_autofree char *count = bond_dialog_text (studies->count[i]);

      house->placing[i] = (BondPlacingStudy){ 0, 0 };
      if (spread == NULL && count == NULL)
        continue;
      *wrong = GTK_WIDGET (studies->spread[i]);
      if (spread == NULL || !parse_spread (spread, &house->placing[i].s))
        return g_strdup_printf (_ ("The standard deviation of a study (%s) has to be above 0 and at most %d\u00a0µΩ. "
                                   "Nothing was saved; what you typed is kept."),
                                bond_class_name ((BondClass)i), (int)MOST_UOHM);
      *wrong = GTK_WIDGET (studies->count[i]);
      if (count == NULL || !parse_count (count, &house->placing[i].n))
        return g_strdup_printf (_ ("A study (%s) has to be of 2 to %d placings. Nothing was saved; what you typed is "
                                   "kept."),
                                bond_class_name ((BondClass)i), MOST_PLACINGS);
    }
  *wrong = NULL;
  return NULL;
}
