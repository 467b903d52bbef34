/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The head of Point Details, where the point is, and the frame of a section.
 */
#include "gui/details/details-parts.h"
#include "gui/details/details-part.h"
#include "gui/start/detail.h"
#include "gui/widgets/mark-image.h"
#include "gui/words.h"
#include "report/act-words.h"
#include "report/figures.h"
#include <glib/gi18n-lib.h>

#define MARK_PX 32

GtkBox *
bond_details_section (GtkBox *column, const char *title, GtkLabel **note)
{
  GtkWidget *section = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *heading = bond_detail_label (title, "section");
  GtkWidget *quiet = bond_detail_label (NULL, "note");
  GtkWidget *rule = gtk_separator_new (GTK_ORIENTATION_HORIZONTAL);
  GtkWidget *part = bond_details_part_new ();

  gtk_widget_set_hexpand (heading, TRUE);
  gtk_widget_set_valign (quiet, GTK_ALIGN_END);
  gtk_widget_add_css_class (rule, "rule-strong");
  gtk_box_append (GTK_BOX (line), heading);
  gtk_box_append (GTK_BOX (line), quiet);
  gtk_box_append (GTK_BOX (section), line);
  gtk_box_append (GTK_BOX (section), rule);
  gtk_box_append (GTK_BOX (section), part);
  gtk_box_append (column, section);
  if (note != NULL)
    *note = GTK_LABEL (quiet);
  return bond_details_part_get_box (BOND_DETAILS_PART (part));
}

void
bond_details_clear (GtkBox *box)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (box))) != NULL)
    gtk_box_remove (box, child);
}

static void
collect (GtkWidget *widget, GString *text)
{
  if (GTK_IS_LABEL (widget) && *gtk_label_get_text (GTK_LABEL (widget)) != '\0')
    bond_act_append (text, gtk_label_get_text (GTK_LABEL (widget)));
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    collect (child, text);
}

void
bond_details_speak (GtkBox *box, const char *title)
{
  g_autoptr (GString) text = g_string_new (title);

  collect (GTK_WIDGET (box), text);
  bond_details_part_speak (BOND_DETAILS_PART (gtk_widget_get_ancestor (GTK_WIDGET (box), BOND_TYPE_DETAILS_PART)),
                           text->str);
}

/* --- head --- */

static char *
walk_words (const BondDetailsAbout *about)
{
  g_autofree char *where = bond_words_where (about->survey, bond_point_get_spec (about->point));
  guint at = bond_survey_position (about->survey, about->point);

  if (at == G_MAXUINT)
    return g_steal_pointer (&where);
  return g_strdup_printf (_ ("%s, point %u of %u on the walk"), where, at + 1,
                          g_list_model_get_n_items (G_LIST_MODEL (about->survey)));
}

static GtkWidget *
new_class (const BondPointSpec *spec)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkWidget *sign = bond_mark_image_new ();
  g_autofree char *text = g_strdup_printf ("%s %c", bond_class_name (spec->klass), bond_class_letter (spec->klass));
  GtkWidget *label = bond_detail_label (text, "quiet");

  bond_mark_image_set_class (BOND_MARK_IMAGE (sign), spec->klass);
  gtk_label_set_wrap (GTK_LABEL (label), FALSE);
  gtk_box_append (GTK_BOX (box), label);
  gtk_box_append (GTK_BOX (box), sign);
  gtk_widget_set_halign (box, GTK_ALIGN_END);
  gtk_widget_set_valign (box, GTK_ALIGN_CENTER);
  return box;
}

static void
add_sentence (GString *text, const char *words)
{
  g_autofree char *sentence = words != NULL && *words != '\0' ? bond_words_sentence (words) : NULL;

  if (sentence == NULL)
    return;
  g_string_append_printf (text, "%s%s", text->len > 0 ? " " : "", sentence);
  if (!g_str_has_suffix (sentence, "."))
    g_string_append_c (text, '.');
}

/* "1.38 mΩ against ≤ 2.5 mΩ, reworked" */
static char *
against_words (const BondDetailsAbout *about)
{
  const BondPlaceResult *place = about->place;
  const BondMeasurement *m = place->decides != NULL ? place->decides : place->last;
  const char *tier = m != NULL ? bond_figure_tier (m->row, m->condition) : NULL;
  g_autofree char *value = NULL;
  g_autofree char *limit = NULL;

  if (m == NULL || m->mean.count == 0)
    return NULL;
  value = bond_words_result (about->survey, m, bond_words_unit (place, BOND_UNIT_MILLIOHM), TRUE);
  if (m->row == NULL || !bond_bounds_any (bond_limit_row_bounds (m->row, m->condition)))
    return g_strdup_printf (_ ("%s, no limit"), value);
  limit = bond_bounds_format (bond_limit_row_bounds (m->row, m->condition), bond_locale_mark (), TRUE);
  if (tier != NULL)
    return g_strdup_printf (_ ("%s against %s, %s"), value, limit, tier);
  return g_strdup_printf (_ ("%s against %s"), value, limit);
}

/* The value of @place's place against what comes next, where nothing was measured yet. */
static void
add_next_limit (const BondDetailsAbout *about, GString *text)
{
  const BondPlaceResult *place = about->place;
  g_autofree char *limit = place->bounds != NULL ? bond_bounds_format (place->bounds, bond_locale_mark (), TRUE) : NULL;
  g_autofree char *words = limit != NULL ? g_strdup_printf (_ ("The next reading is judged against %s"), limit) : NULL;

  if (place->decides == NULL)
    add_sentence (text, words);
}

char *
bond_details_verdict_words (const BondDetailsAbout *about)
{
  const BondPlaceResult *place = about->place;
  const BondMeasurement *m = place->decides != NULL ? place->decides : place->last;
  g_autofree char *state = bond_figure_state (place, bond_survey_get_rule (about->survey));
  g_autofree char *against = against_words (about);
  g_autofree char *first = against != NULL ? g_strdup_printf ("%s: %s", state, against) : g_strdup (state);
  const char *bare = bond_point_bare_since (about->point);
  g_autofree char *bare_when = bare != NULL ? bond_words_when (about->survey, bare) : NULL;
  g_autofree char *strap = bond_words_strap (about->survey, place);
  GString *text = g_string_new (NULL);

  add_sentence (text, first);
  if (m != NULL && m->outcome == BOND_OUTCOME_JUDGED && m->within_u)
    add_sentence (text, _ ("within U of the limit"));
  if (m != NULL && m->reason != BOND_REASON_NONE)
    add_sentence (text, bond_reason_name (m->reason));
  if (m != NULL && m->caution != BOND_REASON_NONE)
    add_sentence (text, bond_reason_name (m->caution));
  if (place->held)
    add_sentence (text, _ ("re-seating was begun and is not finished"));
  if (place->freed)
    add_sentence (text, _ ("an end was freed to measure it isolated, and the joint is not recorded as opened"));
  if (place->intermittent)
    add_sentence (text, _ ("intermittent: the re-seated readings do not agree"));
  if (place->visual_reject)
    {
      g_autofree char *found = g_strdup_printf (_ ("rejected by sight: %s"), bond_visual_name (place->visual));

      add_sentence (text, found);
    }
  add_sentence (text, strap);
  if (bare_when != NULL)
    {
      g_autofree char *words = g_strdup_printf (_ ("the joint is bare since %s"), bare_when);

      add_sentence (text, words);
    }
  add_next_limit (about, text);
  return g_string_free (text, FALSE);
}

static GtkWidget *
new_verdict (const BondDetailsAbout *about)
{
  g_autofree char *words = bond_details_verdict_words (about);
  GtkWidget *label = bond_detail_label (words, "strong");

  if (about->place->state == BOND_STATE_FAIL)
    gtk_widget_add_css_class (label, "fail");
  return label;
}

void
bond_details_head_fill (GtkBox *box, const BondDetailsAbout *about, gboolean narrow)
{
  const BondPointSpec *spec = bond_point_get_spec (about->point);
  BondRule rule = bond_survey_get_rule (about->survey);
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 16);
  GtkWidget *words = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  GtkWidget *mark = bond_mark_image_new ();
  GtkWidget *number = bond_detail_label (spec->number, "point-number");
  g_autofree char *ends = g_strdup_printf ("%s – %s", spec->from, spec->to);
  g_autofree char *where = walk_words (about);

  bond_details_clear (box);
  bond_mark_image_set_size (BOND_MARK_IMAGE (mark), MARK_PX);
  bond_mark_image_set_mark (BOND_MARK_IMAGE (mark), bond_mark_for (about->place, rule));
  gtk_widget_set_valign (mark, GTK_ALIGN_CENTER);
  gtk_label_set_wrap (GTK_LABEL (number), FALSE);
  gtk_widget_set_valign (number, GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (words), bond_detail_label (ends, NULL));
  gtk_box_append (GTK_BOX (words), bond_detail_label (where, "note"));
  gtk_widget_set_hexpand (narrow ? number : words, TRUE);
  gtk_box_append (GTK_BOX (line), mark);
  gtk_box_append (GTK_BOX (line), number);
  if (!narrow)
    gtk_box_append (GTK_BOX (line), words);
  gtk_box_append (GTK_BOX (line), new_class (spec));
  gtk_box_append (box, line);
  if (narrow)
    gtk_box_append (box, words);
  gtk_box_append (box, new_verdict (about));
}

/* --- where --- */

/* "541 Left outboard flap, in 500 Left wing" */
static char *
zone_words (BondSurvey *survey, const char *number)
{
  const BondAirframe *airframe = bond_survey_get_airframe (survey);
  const BondZone *zone = airframe != NULL ? bond_airframe_find_zone (airframe, number) : NULL;
  GString *text = g_string_new (number);

  if (zone != NULL)
    g_string_append_printf (text, " %s", zone->name);
  while (zone != NULL && zone->parent != NULL)
    {
      zone = bond_airframe_find_zone (airframe, zone->parent);
      if (zone != NULL)
        g_string_append_printf (text, _ (", in %s %s"), zone->number, zone->name);
    }
  return g_string_free (text, FALSE);
}

static char *
station_words (const BondPointSpec *spec)
{
  const BondCoordinate *at[] = { &spec->sta, &spec->bl, &spec->wl };
  GString *text = g_string_new (NULL);

  for (int axis = BOND_AXIS_STA; axis <= BOND_AXIS_WL; axis++)
    {
      g_autofree char *word = bond_coordinate_format (axis, at[axis], bond_locale_mark ());

      bond_act_append (text, word);
    }
  return g_string_free (text, FALSE);
}

static char *
hazard_words (BondPoint *point)
{
  guint hazards = bond_point_get_hazards (point);
  GString *text = g_string_new (NULL);

  for (int bit = 0; bit < BOND_N_HAZARDS; bit++)
    if (hazards & (1u << bit))
      bond_act_append (text, bond_hazard_name (1u << bit));
  return g_string_free (text, FALSE);
}

void
bond_details_where_fill (GtkBox *box, const BondDetailsAbout *about)
{
  const BondPointSpec *spec = bond_point_get_spec (about->point);
  g_autofree char *zone = zone_words (about->survey, spec->zone);
  g_autofree char *stations = station_words (spec);
  g_autofree char *hazards = hazard_words (about->point);

  bond_details_clear (box);
  bond_detail_pair (box, _ ("Zone"), zone);
  bond_detail_pair (box, _ ("Station"), *stations != '\0' ? stations : _ ("not known"));
  bond_detail_pair (box, _ ("Access panel"), spec->panel != NULL ? spec->panel : _ ("not stated"));
  bond_detail_pair (box, _ ("Hazards"), hazards);
}
