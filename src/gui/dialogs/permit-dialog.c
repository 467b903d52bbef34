/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The two forms of a permit.  What it must hold is core's rule: the entry is tried
 * before it is recorded, and what core misses is said in the form.  Here texts only
 * become figures.
 */
#include "gui/dialogs/permit-dialog.h"
#include "gui/dialog.h"
#include "library/permits.h"
#include <glib/gi18n-lib.h>

typedef struct
{
  BondWalk *walk;
  BondDialog *dialog;
  GtkDropDown *hazard;
  GtkEditable *number, *zones, *authority, *gas_at, *vapour, *oxygen, *tester, *until, *count;
  GtkWidget *gas_rows[4], *authority_row;
  GtkLabel *current;
} PermitForm;

typedef struct
{
  BondWalk *walk;
  GPtrArray *permits; /* of BondEntry */
  GtkDropDown *which;
  GtkEditable *count, *reason;
  GtkLabel *told;
} CloseForm;

static const BondHazard hazards[] = { BOND_HAZARD_FUEL_VAPOUR, BOND_HAZARD_EXPLOSIVE };

static void
permit_form_free (gpointer data)
{
  PermitForm *form = data;

  g_clear_object (&form->walk);
  g_free (form);
}

static char *
time_now (BondWalk *walk)
{
  return bond_source_peek (bond_survey_get_source (bond_walk_get_survey (walk)));
}

/* "2.5" or "2,5" per cent in thousandths. −1 = empty, −2 = no such figure. */
static int
permille_of (GtkEditable *editable)
{
  g_autofree char *text = bond_dialog_text (editable);
  g_auto (GStrv) parts = NULL;
  guint64 whole = 0, tenth = 0;

  if (text == NULL)
    return -1;
  if (g_str_has_suffix (text, "%"))
    text[strlen (text) - 1] = '\0';
  parts = g_strsplit_set (g_strchomp (text), ".,", 2);
  if (!g_ascii_string_to_unsigned (parts[0], 10, 0, 100, &whole, NULL))
    return -2;
  if (parts[1] != NULL && (strlen (parts[1]) != 1 || !g_ascii_string_to_unsigned (parts[1], 10, 0, 9, &tenth, NULL)))
    return -2;
  return (int)(whole * 10 + tenth);
}

static int
count_of (GtkEditable *editable)
{
  g_autofree char *text = bond_dialog_text (editable);
  guint64 count = 0;

  if (text == NULL)
    return -1;
  return g_ascii_string_to_unsigned (text, 10, 0, 999, &count, NULL) ? (int)count : -2;
}

static gboolean
refuse (BondDialog *dialog, GtkEditable *editable, const char *words)
{
  bond_dialog_set_problem (dialog, words);
  if (editable != NULL)
    gtk_widget_grab_focus (GTK_WIDGET (editable));
  return FALSE;
}

/* Numbers of zones, whatever parts them. */
static char *
zones_of (GtkEditable *editable)
{
  g_autofree char *text = bond_dialog_text (editable);
  g_auto (GStrv) parts = text != NULL ? g_strsplit_set (text, " ,;", -1) : NULL;
  GString *zones = g_string_new (NULL);

  for (int i = 0; parts != NULL && parts[i] != NULL; i++)
    if (*parts[i] != '\0')
      g_string_append_printf (zones, "%s%s", zones->len > 0 ? " " : "", parts[i]);
  return g_string_free (zones, zones->len == 0);
}

static gboolean
take_times (PermitForm *form, BondPermit *permit)
{
  g_autofree char *now = time_now (form->walk);
  g_autofree char *gas_at = bond_dialog_text (form->gas_at);
  g_autofree char *until = bond_dialog_text (form->until);

  if (permit->hazard == BOND_HAZARD_FUEL_VAPOUR && gas_at != NULL)
    {
      permit->gas_at = bond_time_of_day (gas_at, now, FALSE);
      if (permit->gas_at == NULL)
        return refuse (form->dialog, form->gas_at, _ ("The time of the gas test is written like 09:40."));
    }
  if (until != NULL)
    {
      permit->valid_until = bond_time_of_day (until, now, TRUE);
      if (permit->valid_until == NULL)
        return refuse (form->dialog, form->until, _ ("The end of the permit is written like 14:00."));
    }
  return TRUE;
}

static gboolean
take_figures (PermitForm *form, BondPermit *permit)
{
  permit->vapour_permille = permit->oxygen_permille = -1;
  permit->counted_in = count_of (form->count);
  if (permit->counted_in == -2)
    return refuse (form->dialog, form->count, _ ("Clips and leads counted in: a whole number."));
  if (permit->hazard != BOND_HAZARD_FUEL_VAPOUR)
    return TRUE;
  permit->vapour_permille = permille_of (form->vapour);
  if (permit->vapour_permille == -2)
    return refuse (form->dialog, form->vapour, _ ("Vapour is a share of the LEL in per cent, like 2 or 2.5."));
  permit->oxygen_permille = permille_of (form->oxygen);
  if (permit->oxygen_permille == -2)
    return refuse (form->dialog, form->oxygen, _ ("Oxygen is a share of the air in per cent, like 20.9."));
  permit->tester = bond_dialog_text (form->tester);
  return TRUE;
}

static BondHazard
chosen_hazard (PermitForm *form)
{
  return hazards[MIN (gtk_drop_down_get_selected (form->hazard), G_N_ELEMENTS (hazards) - 1)];
}

/* An open permit is needed of clips too, so a count that is not stated is asked for here, where it costs a key. */
static gboolean
permit_act (BondDialog *dialog, gpointer data)
{
  PermitForm *form = data;
  g_autoptr (BondEntry) entry = bond_entry_new (BOND_ENTRY_PERMIT);
  g_autoptr (GError) error = NULL;
  BondPermit *permit = &entry->permit;

  permit->hazard = chosen_hazard (form);
  permit->number = bond_dialog_text (form->number);
  permit->zones = zones_of (form->zones);
  if (permit->hazard == BOND_HAZARD_EXPLOSIVE)
    permit->authority = bond_dialog_text (form->authority);
  if (!take_times (form, permit) || !take_figures (form, permit))
    return FALSE;
  if (permit->counted_in < 0)
    return refuse (dialog, form->count, _ ("Count the clips and leads that go in; they are counted out at the end."));
  if (!bond_survey_check_entry (bond_walk_get_survey (form->walk), entry, &error))
    return refuse (dialog, NULL, error->message);
  bond_walk_record_entry (form->walk, g_steal_pointer (&entry));
  return TRUE;
}

/* A row is its field and the label that names it. */
static void
show_row (GtkWidget *field, gboolean shown)
{
  g_autoptr (GList) labels = gtk_widget_list_mnemonic_labels (field);

  gtk_widget_set_visible (field, shown);
  for (GList *l = labels; l != NULL; l = l->next)
    gtk_widget_set_visible (l->data, shown);
}

/* Each hazard asks for its own rows. */
static void
show_rows (PermitForm *form)
{
  gboolean vapour = chosen_hazard (form) == BOND_HAZARD_FUEL_VAPOUR;

  for (gsize i = 0; i < G_N_ELEMENTS (form->gas_rows); i++)
    show_row (form->gas_rows[i], vapour);
  show_row (form->authority_row, !vapour);
  gtk_widget_set_visible (GTK_WIDGET (form->current), !vapour);
  bond_dialog_set_problem (form->dialog, NULL);
}

static char *
current_words (BondWalk *walk)
{
  const BondRange *range = bond_walk_range (walk);

  if (range == NULL || range->microampere <= 0)
    return g_strdup (_ ("The test current of the pinned range is not known."));
  if (range->microampere % 1000000 == 0)
    return g_strdup_printf (_ ("The pinned range puts %d A through the joint."), (int)(range->microampere / 1000000));
  return g_strdup_printf (_ ("The pinned range puts %d mA through the joint."), (int)(range->microampere / 1000));
}

static guint
likely_hazard (BondWalk *walk)
{
  BondPoint *point = bond_walk_get_point (walk);
  const BondPinned *pinned = bond_walk_get_pinned (walk);
  g_autofree char *now = time_now (walk);
  g_auto (BondLeaveStatus) status = { 0 };

  if (point != NULL)
    bond_leave_status (bond_walk_get_survey (walk), point, pinned->instrument, pinned->range, now, &status);
  return status.hazard == BOND_HAZARD_EXPLOSIVE ? 1 : 0;
}

static void
add_rows (PermitForm *form, const char *zone)
{
  const char *names[] = { bond_hazard_name (hazards[0]), bond_hazard_name (hazards[1]), NULL };
  g_autofree char *current = current_words (form->walk);

  form->hazard = bond_dialog_add_choice (form->dialog, _ ("_Hazard"), names, likely_hazard (form->walk));
  form->current = bond_dialog_add_text (form->dialog, current);
  form->number = bond_dialog_add_entry (form->dialog, _ ("Permit _number"), NULL);
  form->zones = bond_dialog_add_entry (form->dialog, _ ("_Zones"), zone);
  form->authority = bond_dialog_add_entry (form->dialog, _ ("Named _authority"), NULL);
  form->gas_at = bond_dialog_add_entry (form->dialog, _ ("_Gas test at"), NULL);
  form->vapour = bond_dialog_add_entry (form->dialog, _ ("_Vapour, % of LEL"), NULL);
  form->oxygen = bond_dialog_add_entry (form->dialog, _ ("_Oxygen, %"), NULL);
  form->tester = bond_dialog_add_entry (form->dialog, _ ("_Tested by"), NULL);
  form->until = bond_dialog_add_entry (form->dialog, _ ("Valid _until"), NULL);
  form->count = bond_dialog_add_entry (form->dialog, _ ("_Clips and leads in"), NULL);
  gtk_entry_set_placeholder_text (GTK_ENTRY (form->gas_at), "09:40");
  gtk_entry_set_placeholder_text (GTK_ENTRY (form->until), "14:00");
  form->authority_row = GTK_WIDGET (form->authority);
  form->gas_rows[0] = GTK_WIDGET (form->gas_at);
  form->gas_rows[1] = GTK_WIDGET (form->vapour);
  form->gas_rows[2] = GTK_WIDGET (form->oxygen);
  form->gas_rows[3] = GTK_WIDGET (form->tester);
}

void
bond_permit_dialog (GtkWindow *parent, BondWalk *walk)
{
  BondPoint *point = bond_walk_get_point (walk);
  PermitForm *form = g_new0 (PermitForm, 1);

  form->walk = g_object_ref (walk);
  form->dialog
      = bond_dialog_new (parent, _ ("Leave to Measure"), _ ("Record Permit"), permit_act, form, permit_form_free);
  add_rows (form, point != NULL ? bond_point_get_spec (point)->zone : NULL);
  g_signal_connect_swapped (form->hazard, "notify::selected", G_CALLBACK (show_rows), form);
  show_rows (form);
  gtk_window_present (GTK_WINDOW (form->dialog));
  gtk_widget_grab_focus (GTK_WIDGET (chosen_hazard (form) == BOND_HAZARD_EXPLOSIVE ? form->authority : form->number));
}

/* --- closing --- */

static void
close_form_free (gpointer data)
{
  CloseForm *form = data;

  g_clear_object (&form->walk);
  g_ptr_array_unref (form->permits);
  g_free (form);
}

static const BondEntry *
chosen_permit (CloseForm *form)
{
  return g_ptr_array_index (form->permits, MIN (gtk_drop_down_get_selected (form->which), form->permits->len - 1));
}

/* Said while it is typed: nobody should learn of a missing clip only from a refusal. */
static void
show_count (CloseForm *form)
{
  const BondPermit *permit = &chosen_permit (form)->permit;
  int out = count_of (form->count);
  g_autofree char *text = NULL;
  gboolean differs = permit->counted_in >= 0 && out >= 0 && out != permit->counted_in;

  if (permit->counted_in < 0)
    text = g_strdup (_ ("None were counted in."));
  else if (differs)
    text = g_strdup_printf (out < permit->counted_in ? _ ("%d went in, %d came out: %d MISSING. Say what of it.")
                                                     : _ ("%d went in, %d came out: %d TOO MANY. Say what of it."),
                            permit->counted_in, out, ABS (permit->counted_in - out));
  else
    text = g_strdup_printf (_ ("%d went in."), permit->counted_in);
  gtk_label_set_text (form->told, text);
  (differs ? gtk_widget_add_css_class : gtk_widget_remove_css_class) (GTK_WIDGET (form->told), "fail");
  (differs ? gtk_widget_add_css_class : gtk_widget_remove_css_class) (GTK_WIDGET (form->told), "strong");
  (differs ? gtk_widget_remove_css_class : gtk_widget_add_css_class) (GTK_WIDGET (form->told), "quiet");
  gtk_widget_set_sensitive (GTK_WIDGET (form->reason), differs);
}

static gboolean
close_act (BondDialog *dialog, gpointer data)
{
  CloseForm *form = data;
  g_autoptr (BondEntry) entry = bond_entry_new (BOND_ENTRY_CLOSE_PERMIT);
  g_autoptr (GError) error = NULL;
  int out = count_of (form->count);

  if (out < 0)
    return refuse (dialog, form->count, _ ("Count the clips and leads that came out: a whole number."));
  entry->ref = g_strdup (chosen_permit (form)->id);
  entry->close_permit.counted_out = out;
  if (gtk_widget_get_sensitive (GTK_WIDGET (form->reason)))
    entry->reason = bond_dialog_text (form->reason);
  if (!bond_survey_check_entry (bond_walk_get_survey (form->walk), entry, &error))
    return refuse (dialog, gtk_widget_get_sensitive (GTK_WIDGET (form->reason)) ? form->reason : NULL, error->message);
  bond_walk_record_entry (form->walk, g_steal_pointer (&entry));
  return TRUE;
}

static GPtrArray *
open_permits (BondWalk *walk, guint *likely)
{
  BondSurvey *survey = bond_walk_get_survey (walk);
  BondPoint *point = bond_walk_get_point (walk);
  GPtrArray *all = bond_survey_get_permits (survey);
  GPtrArray *permits = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_entry_unref);
  g_autofree char *now = time_now (walk);
  g_auto (BondLeaveStatus) status = { 0 };

  if (point != NULL)
    bond_leave_status (survey, point, NULL, NULL, now, &status);
  *likely = 0;
  for (guint i = 0; i < all->len; i++)
    {
      BondEntry *entry = g_ptr_array_index (all, i);

      if (entry == status.permit)
        *likely = i;
      g_ptr_array_add (permits, bond_entry_ref (entry));
    }
  return permits;
}

static void
add_permits (CloseForm *form, BondDialog *dialog, guint likely)
{
  g_autoptr (GPtrArray) names = g_ptr_array_new_with_free_func (g_free);

  for (guint i = 0; i < form->permits->len; i++)
    {
      const BondPermit *permit = &((BondEntry *)g_ptr_array_index (form->permits, i))->permit;
      g_autofree char *name = bond_permit_name (permit);

      g_ptr_array_add (names, g_strdup_printf (_ ("%s, zones %s"), name, permit->zones != NULL ? permit->zones : "–"));
    }
  g_ptr_array_add (names, NULL);
  form->which = bond_dialog_add_choice (dialog, _ ("_Permit"), (const char *const *)names->pdata, likely);
}

void
bond_close_permit_dialog (GtkWindow *parent, BondWalk *walk)
{
  CloseForm *form = g_new0 (CloseForm, 1);
  BondDialog *dialog;
  guint likely;

  form->walk = g_object_ref (walk);
  form->permits = open_permits (walk, &likely);
  if (form->permits->len == 0)
    {
      close_form_free (form);
      bond_message (parent, _ ("Close Permit"), _ ("No permit of this survey is open."));
      return;
    }
  dialog = bond_dialog_new (parent, _ ("Close Permit"), _ ("Close Permit"), close_act, form, close_form_free);
  add_permits (form, dialog, likely);
  form->told = bond_dialog_add_text (dialog, "");
  form->count = bond_dialog_add_entry (dialog, _ ("_Clips and leads out"), NULL);
  form->reason = bond_dialog_add_entry (dialog, _ ("_What of the difference"), NULL);
  g_signal_connect_swapped (form->which, "notify::selected", G_CALLBACK (show_count), form);
  g_signal_connect_swapped (form->count, "changed", G_CALLBACK (show_count), form);
  show_count (form);
  gtk_window_present (GTK_WINDOW (dialog));
  gtk_widget_grab_focus (GTK_WIDGET (form->count));
}
