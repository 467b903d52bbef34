/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The disposition of a point that fails.  Who may give one, and that the point stays
 * non-conforming, is no matter of this form; it asks what the record needs of each
 * kind and says in place what is missing.
 */
#include "core/defect-day.h"
#include "gui/dialogs/act-form.h"
#include "gui/dialogs/reject-acts.h"
#include "gui/words.h"
#include <glib/gi18n-lib.h>

/* One row a kind: its label and what its lines are called. */
static const struct
{
  BondDispositionKind kind;
  const char *label, *reference, *holder;
} kinds[] = {
  { BOND_DISPOSITION_CARRIED_FORWARD, N_ ("Carried forward by certifying staff"), N_ ("_Reference"),
    N_ ("_Certifying staff") },
  { BOND_DISPOSITION_DEFERRED, N_ ("Deferred by certifying staff"), N_ ("_Reference"), N_ ("_Certifying staff") },
  { BOND_DISPOSITION_ACCEPTED, N_ ("Accepted by engineering disposition"), N_ ("Approved-data _reference"),
    N_ ("_Approval holder") },
};

typedef enum
{
  END_NOT_CHOSEN,
  END_DATE,
  END_CHECK,
  END_NONE,
} End;
static const char *const end_names[] = { N_ ("Choose…"), N_ ("On a date"), N_ ("At a check"), N_ ("No end"), NULL };

static const BondRelation relations[] = { BOND_RELATION_LE, BOND_RELATION_LT };
static const BondUnit units[] = { BOND_UNIT_MICROOHM, BOND_UNIT_MILLIOHM, BOND_UNIT_OHM };

typedef struct
{
  BondActForm base;
  GtkCheckButton *kind[G_N_ELEMENTS (kinds)];
  GtkEditable *reference, *holder, *first_date, *limit, *end_words;
  GtkDropDown *relation, *unit, *end;
  GtkWidget *limit_row;
} Form;

static gsize
chosen_kind (const Form *form)
{
  gsize i = 0;

  while (i + 1 < G_N_ELEMENTS (kinds) && !gtk_check_button_get_active (form->kind[i]))
    i++;
  return i;
}

static gboolean
is_date (const char *text)
{
  g_auto (GStrv) parts = g_strsplit (text, "-", -1);
  guint64 year, month, day;

  return g_strv_length (parts) == 3 && strlen (parts[0]) == 4 && strlen (parts[1]) == 2 && strlen (parts[2]) == 2
         && g_ascii_string_to_unsigned (parts[0], 10, 1900, 9999, &year, NULL)
         && g_ascii_string_to_unsigned (parts[1], 10, 1, 12, &month, NULL)
         && g_ascii_string_to_unsigned (parts[2], 10, 1, 31, &day, NULL)
         && g_date_valid_dmy ((GDateDay)day, (GDateMonth)month, (GDateYear)year);
}

/* --- what is missing --- */

static gboolean
take_end (BondDialog *dialog, const Form *form, char **until)
{
  End end = gtk_drop_down_get_selected (form->end);
  g_autofree char *words = bond_dialog_text (form->end_words);

  if (end == END_NONE)
    {
      if (kinds[chosen_kind (form)].kind != BOND_DISPOSITION_ACCEPTED)
        return bond_act_form_need (dialog, form->end,
                                   _ ("A defect carried forward or deferred ends on a date or at a check."));
      *until = g_strdup ("no end");
      return TRUE;
    }
  if (end == END_NOT_CHOSEN || words == NULL)
    return bond_act_form_need (dialog, end == END_NOT_CHOSEN ? (gpointer)form->end : (gpointer)form->end_words,
                               _ ("A disposition needs an end: a date, a check, or “no end”."));
  if (end == END_DATE && !is_date (words))
    return bond_act_form_need (dialog, form->end_words, _ ("Write the date as year-month-day, 2026-12-31."));
  *until = g_steal_pointer (&words);
  return TRUE;
}

static gboolean
take_limit (BondDialog *dialog, const Form *form, BondBound *bound)
{
  BondNumberFormat format = { .mark = bond_locale_mark () };
  g_autofree char *text = bond_dialog_text (form->limit);
  g_autoptr (GError) error = NULL;

  if (text == NULL)
    return bond_act_form_need (dialog, form->limit, _ ("An acceptance needs its new limit."));
  bound->unit = units[gtk_drop_down_get_selected (form->unit)];
  bound->relation = relations[gtk_drop_down_get_selected (form->relation)];
  if (!bond_ohm_parse (text, bound->unit, &format, &bound->nohm, &bound->unit, &error))
    return bond_act_form_need (dialog, form->limit, error->message);
  if (bound->nohm <= 0)
    return bond_act_form_need (dialog, form->limit, _ ("A limit is above zero."));
  return TRUE;
}

static gboolean
take_first_date (BondDialog *dialog, const Form *form, char **date)
{
  g_autofree char *text = bond_dialog_text (form->first_date);

  if (text == NULL || !is_date (text))
    return bond_act_form_need (dialog, form->first_date,
                               _ ("Say when the defect was first found, as year-month-day. The first date is kept "
                                  "whenever it is deferred again."));
  *date = g_steal_pointer (&text);
  return TRUE;
}

static gboolean
disposition_act (BondDialog *dialog, gpointer data)
{
  Form *form = data;
  BondDispositionKind kind = kinds[chosen_kind (form)].kind;
  g_autofree char *reference = bond_dialog_text (form->reference);
  g_autofree char *holder = bond_dialog_text (form->holder);
  g_autofree char *until = NULL;
  g_autofree char *first_date = NULL;
  BondBounds bounds = { 0 };
  BondEntry *entry;

  if (reference == NULL)
    return bond_act_form_need (dialog, form->reference, _ ("A disposition needs its reference."));
  if (holder == NULL)
    return bond_act_form_need (dialog, form->holder,
                               kind == BOND_DISPOSITION_ACCEPTED
                                   ? _ ("Say who holds the approval the data was accepted under.")
                                   : _ ("Say which certifying staff decided it, by name."));
  if (kind == BOND_DISPOSITION_ACCEPTED ? !take_limit (dialog, form, &bounds.upper)
                                        : !take_first_date (dialog, form, &first_date))
    return FALSE;
  if (!take_end (dialog, form, &until))
    return FALSE;
  entry = bond_act_form_entry (&form->base, BOND_ENTRY_DISPOSITION);
  entry->disposition.kind = kind;
  entry->disposition.reference = g_steal_pointer (&reference);
  entry->disposition.holder = g_steal_pointer (&holder);
  entry->disposition.until = g_steal_pointer (&until);
  entry->disposition.first_date = g_steal_pointer (&first_date);
  entry->disposition.bounds = bounds;
  return bond_act_form_record (dialog, &form->base, entry);
}

/* --- the form --- */

static void
kind_changed_cb (Form *form)
{
  gsize i = chosen_kind (form);
  gboolean accepted = kinds[i].kind == BOND_DISPOSITION_ACCEPTED;
  End end = gtk_drop_down_get_selected (form->end);

  bond_act_form_show_row (form->reference, TRUE, _ (kinds[i].reference));
  bond_act_form_show_row (form->holder, TRUE, _ (kinds[i].holder));
  bond_act_form_show_row (form->first_date, !accepted, NULL);
  bond_act_form_show_row (form->limit, accepted, NULL);
  gtk_widget_set_visible (form->limit_row, accepted);
  bond_act_form_show_row (form->end_words, end == END_DATE || end == END_CHECK,
                          end == END_DATE ? _ ("_Date") : _ ("C_heck"));
  gtk_entry_set_placeholder_text (GTK_ENTRY (form->end_words), end == END_DATE ? "2026-12-31" : "");
}

static GtkDropDown *
add_part (Form *form, const char *const *names, guint selected, const char *name)
{
  GtkWidget *drop = gtk_drop_down_new_from_strings (names);

  gtk_drop_down_set_selected (GTK_DROP_DOWN (drop), selected);
  bond_name_widget (drop, name);
  gtk_box_append (GTK_BOX (form->limit_row), drop);
  return GTK_DROP_DOWN (drop);
}

/* Relation, figure and unit read as they will be printed, in one line. */
static void
add_limit (BondDialog *dialog, Form *form, const BondPlaceResult *result)
{
  const char *names[G_N_ELEMENTS (relations) + 1] = { NULL };
  const char *unit_names[G_N_ELEMENTS (units) + 1] = { NULL };

  for (gsize i = 0; i < G_N_ELEMENTS (relations); i++)
    names[i] = bond_relation_symbol (relations[i]);
  for (gsize i = 0; i < G_N_ELEMENTS (units); i++)
    unit_names[i] = bond_unit_symbol (units[i]);
  form->limit_row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  form->relation = add_part (form, names, 0, _ ("Relation of the new limit"));
  form->limit = GTK_EDITABLE (gtk_entry_new ());
  gtk_entry_set_activates_default (GTK_ENTRY (form->limit), TRUE);
  gtk_editable_set_width_chars (form->limit, 8);
  gtk_widget_set_hexpand (GTK_WIDGET (form->limit), TRUE);
  gtk_box_append (GTK_BOX (form->limit_row), GTK_WIDGET (form->limit));
  form->unit = add_part (form, unit_names, 1, _ ("Unit of the new limit"));
  bond_dialog_add_labelled (dialog, _ ("New _limit"), form->limit_row, GTK_WIDGET (form->limit));
}

static void
fill_form (BondDialog *dialog, Form *form, const BondPlaceResult *result)
{
  const char *ends[G_N_ELEMENTS (end_names)] = { NULL };
  g_autofree char *day = bond_place_result_first_found (result);

  for (gsize i = 0; end_names[i] != NULL; i++)
    ends[i] = _ (end_names[i]);
  for (gsize i = 0; i < G_N_ELEMENTS (kinds); i++)
    {
      form->kind[i] = bond_dialog_add_radio (dialog, _ (kinds[i].label), i > 0 ? form->kind[0] : NULL);
      g_signal_connect_swapped (form->kind[i], "toggled", G_CALLBACK (kind_changed_cb), form);
    }
  form->reference = bond_dialog_add_entry (dialog, _ (kinds[0].reference), NULL);
  form->holder = bond_dialog_add_entry (dialog, _ (kinds[0].holder), NULL);
  form->first_date = bond_dialog_add_entry (dialog, _ ("_First found on"), day);
  add_limit (dialog, form, result);
  form->end = bond_dialog_add_choice (dialog, _ ("_End"), ends, END_NOT_CHOSEN);
  form->end_words = bond_dialog_add_entry (dialog, _ ("_Date"), NULL);
  g_signal_connect_swapped (form->end, "notify::selected", G_CALLBACK (kind_changed_cb), form);
  bond_dialog_add_text (dialog, _ ("The point stays non-conforming, and every report says so."));
  kind_changed_cb (form);
}

void
bond_disposition_dialog (GtkWindow *parent, BondWalk *walk)
{
  const BondPlaceResult *result = bond_walk_get_result (walk);
  BondDialog *dialog;
  Form *form;

  if (result == NULL
      || (result->state != BOND_STATE_FAIL && result->state != BOND_STATE_CARRIED_FORWARD
          && result->state != BOND_STATE_DEFERRED && result->state != BOND_STATE_ACCEPTED))
    {
      bond_message (parent, _ ("Disposition"), _ ("Use a disposition only on a point that fails."));
      return;
    }
  form = bond_act_form_new (walk, sizeof (Form));
  dialog = bond_act_form_open (parent, form, _ ("Disposition"), _ ("Record"), disposition_act, bond_act_form_free);
  fill_form (dialog, form, result);
  gtk_window_present (GTK_WINDOW (dialog));
  gtk_widget_grab_focus (GTK_WIDGET (form->reference));
}
