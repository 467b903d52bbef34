/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The identity strip.  "Done" means that a point asks for nothing more; points that
 * are not accessible are open and do not count as done.
 */
#include "gui/identity-strip.h"
#include "gui/dialog.h"
#include "gui/dialogs/people-popover.h"
#include "gui/instrument-chip.h"
#include <glib/gi18n-lib.h>

typedef struct
{
  BondSurvey *survey;
  GtkWidget *box;
  GtkLabel *registration, *job, *tag, *progress;
  GtkProgressBar *bar;
  GtkWidget *people;
  gboolean distrusted;
} Strip;

static void
strip_free (gpointer data)
{
  Strip *strip = data;

  g_signal_handlers_disconnect_by_data (strip->survey, strip);
  g_clear_object (&strip->survey);
  g_free (strip);
}

char *
bond_identity_short (BondSurvey *survey)
{
  const BondCreate *header = bond_survey_get_header (survey);

  return g_strdup (header != NULL && header->registration != NULL ? header->registration : _ ("Survey"));
}

char *
bond_identity_progress (BondSurvey *survey, double *fraction)
{
  BondTotals totals;

  bond_survey_totals (survey, &totals);
  if (fraction != NULL)
    *fraction = totals.scope > 0 ? (double)totals.done / totals.scope : 0;
  return g_strdup_printf (_ ("%d of %d done"), totals.done, totals.scope);
}

static void
join (GString *text, const char *prefix, const char *more)
{
  if (more != NULL && *more != '\0')
    g_string_append_printf (text, "%s%s%s", text->len > 0 ? "   " : "", prefix, more);
}

static char *
job_words (BondSurvey *survey, const BondCreate *header)
{
  const BondAirframe *airframe = bond_survey_get_airframe (survey);
  GString *text = g_string_new (NULL);

  join (text, "", airframe != NULL ? airframe->name : header->aircraft_type);
  if (header->serial != NULL)
    g_string_append_printf (text, _ (", MSN %s"), header->serial);
  /* The title comes last: where room is short it is the part that can be missed. */
  join (text, _ ("WO "), header->order);
  join (text, "", header->title);
  return g_string_free (text, FALSE);
}

static void
tell (GString *text, const char *label, const char *value)
{
  if (value != NULL)
    g_string_append_printf (text, "\n%s: %s", label, value);
}

/* What the strip has no room for: the circumstances as they were stated when the survey was made. */
static char *
circumstances (const char *job, const BondCreate *header)
{
  GString *text = g_string_new (job);

  if (header == NULL)
    return g_string_free (text, FALSE);
  tell (text, _ ("Started by"), header->trigger);
  tell (text, _ ("Card"), header->card);
  tell (text, _ ("Card revision"), header->card_revision);
  tell (text, _ ("Customer"), header->customer);
  tell (text, _ ("Place"), header->location);
  tell (text, _ ("Hours"), header->hours);
  tell (text, _ ("Cycles"), header->cycles);
  tell (text, _ ("Power"), header->power);
  tell (text, _ ("Fuel"), header->fuel);
  tell (text, _ ("Data checked by"), header->data_checked_by);
  tell (text, _ ("Data checked on"), header->data_checked_on);
  tell (text, _ ("Zones in scope"), header->scope);
  return g_string_free (text, FALSE);
}

static void
refresh (Strip *strip)
{
  const BondCreate *header = bond_survey_get_header (strip->survey);
  double fraction = 0;
  g_autofree char *progress = bond_identity_progress (strip->survey, &fraction);
  g_autofree char *registration = bond_identity_short (strip->survey);
  g_autofree char *job = header != NULL ? job_words (strip->survey, header) : g_strdup ("");
  g_autofree char *more = circumstances (job, header);

  gtk_label_set_text (strip->registration, registration);
  gtk_label_set_text (strip->job, job);
  gtk_widget_set_tooltip_text (GTK_WIDGET (strip->job), more);
  gtk_label_set_text (strip->progress, strip->distrusted ? _ ("Altered file") : progress);
  gtk_progress_bar_set_fraction (strip->bar, fraction);
  bond_name_widget (strip->bar, progress);
  gtk_widget_set_visible (GTK_WIDGET (strip->tag), header != NULL && header->invented);
}

static GtkLabel *
add_label (Strip *strip, const char *css)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_add_css_class (label, css);
  gtk_box_append (GTK_BOX (strip->box), label);
  return GTK_LABEL (label);
}

void
bond_identity_strip_distrust (GtkWidget *box)
{
  Strip *strip = g_object_get_data (G_OBJECT (box), "bond-strip");

  g_return_if_fail (strip != NULL);
  strip->distrusted = TRUE;
  gtk_widget_set_visible (GTK_WIDGET (strip->bar), FALSE);
  gtk_widget_add_css_class (GTK_WIDGET (strip->progress), "strong");
  gtk_widget_add_css_class (GTK_WIDGET (strip->progress), "fail");
  refresh (strip);
}

GtkWidget *
bond_identity_strip_get_people (GtkWidget *box)
{
  Strip *strip = g_object_get_data (G_OBJECT (box), "bond-strip");

  g_return_val_if_fail (strip != NULL, NULL);
  return strip->people;
}

GtkWidget *
bond_identity_strip_new (BondWalk *walk, BondCatalog *catalog)
{
  Strip *strip = g_new0 (Strip, 1);

  strip->survey = g_object_ref (bond_walk_get_survey (walk));
  strip->box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 16);
  gtk_widget_add_css_class (strip->box, "strip");
  strip->registration = add_label (strip, "section");
  strip->job = add_label (strip, "quiet");
  gtk_label_set_ellipsize (strip->job, PANGO_ELLIPSIZE_END);
  gtk_widget_set_hexpand (GTK_WIDGET (strip->job), TRUE);
  strip->tag = add_label (strip, "caption");
  gtk_label_set_text (strip->tag, _ ("INVENTED EXAMPLE DATA"));
  gtk_widget_add_css_class (GTK_WIDGET (strip->tag), "strong");
  gtk_widget_add_css_class (GTK_WIDGET (strip->tag), "guard");
  strip->bar = GTK_PROGRESS_BAR (gtk_progress_bar_new ());
  gtk_widget_add_css_class (GTK_WIDGET (strip->bar), "progress-plain");
  gtk_widget_set_valign (GTK_WIDGET (strip->bar), GTK_ALIGN_CENTER);
  gtk_widget_set_size_request (GTK_WIDGET (strip->bar), 150, -1);
  gtk_box_append (GTK_BOX (strip->box), GTK_WIDGET (strip->bar));
  strip->progress = add_label (strip, "number");
  strip->people = bond_people_chip_new (walk, catalog);
  gtk_box_append (GTK_BOX (strip->box), strip->people);
  gtk_box_append (GTK_BOX (strip->box), bond_instrument_chip_new (walk, catalog));
  g_object_set_data_full (G_OBJECT (strip->box), "bond-strip", strip, strip_free);
  g_signal_connect_swapped (strip->survey, "entry-applied", G_CALLBACK (refresh), strip);
  g_signal_connect_swapped (strip->survey, "header-changed", G_CALLBACK (refresh), strip);
  refresh (strip);
  return strip->box;
}
