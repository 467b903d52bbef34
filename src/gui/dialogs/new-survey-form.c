/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the form of a new survey asks, from top to bottom, and how an answer is
 * recorded.  The words for what starts a survey and for power and fuel go into the
 * record as they stand here, so that a report reads the same everywhere.
 */
#include "gui/dialogs/new-survey-private.h"
#include "gui/start/due.h"
#include "gui/words.h"
#include <glib/gi18n-lib.h>

/* job.md 1.2, in plain words. */
static const char *const triggers[] = {
  N_ ("not stated"),
  N_ ("lightning strike, proven or suspected"),
  N_ ("heavy check or zonal programme"),
  N_ ("airworthiness directive"),
  N_ ("component change"),
  N_ ("ground stud or terminal disturbed"),
  N_ ("new equipment or supplemental type certificate"),
  N_ ("paint strip, corrosion removal or structural repair"),
  N_ ("lightning and HIRF protection programme"),
  N_ ("radio noise, static or intermittent faults"),
  N_ ("static discharger work"),
  N_ ("acceptance, lease return or airworthiness review"),
  N_ ("other…"),
};
#define OTHER_TRIGGER (G_N_ELEMENTS (triggers) - 1)

static const char *const powers[] = { N_ ("not stated"), N_ ("off, batteries disconnected"), N_ ("off"),
                                      N_ ("ground power on"), N_ ("aircraft power on") };
static const char *const fuels[] = { N_ ("not stated"), N_ ("tanks empty and vented"), N_ ("tanks drained"),
                                     N_ ("fuel on board"), N_ ("not relevant") };

/* --- answers --- */

gpointer
bond_form_chosen (GtkDropDown *drop, GPtrArray *from)
{
  guint selected = drop != NULL ? gtk_drop_down_get_selected (drop) : GTK_INVALID_LIST_POSITION;

  return selected < from->len ? g_ptr_array_index (from, selected) : NULL;
}

char *
bond_form_text (BondForm *form, BondFormText field)
{
  return form->text[field] != NULL ? bond_dialog_text (form->text[field]) : NULL;
}

BondAirframe *
bond_form_airframe (BondForm *form)
{
  return form->again != NULL ? form->again->airframe : bond_form_chosen (form->airframe, form->airframes);
}

static char *
word_of (GtkDropDown *drop, const char *const *words)
{
  guint selected = gtk_drop_down_get_selected (drop);

  return selected > 0 ? g_strdup (_ (words[selected])) : NULL;
}

char *
bond_form_trigger (BondForm *form)
{
  return gtk_drop_down_get_selected (form->trigger) == OTHER_TRIGGER ? bond_form_text (form, BOND_FORM_OTHER_TRIGGER)
                                                                     : word_of (form->trigger, triggers);
}

char *
bond_form_power (BondForm *form)
{
  return word_of (form->power, powers);
}

char *
bond_form_fuel (BondForm *form)
{
  return word_of (form->fuel, fuels);
}

GPtrArray *
bond_form_instruments (BondForm *form)
{
  GPtrArray *chosen = g_ptr_array_new ();

  for (guint i = 0; i < form->instrument_checks->len; i++)
    if (gtk_check_button_get_active (form->instrument_checks->pdata[i]))
      g_ptr_array_add (chosen, form->instruments->pdata[i]);
  return chosen;
}

/* --- the parts --- */

/* What was wrong is being put right: the complaint goes. */
static void
typed_cb (BondForm *form)
{
  bond_dialog_set_problem (form->dialog, NULL);
}

static void
add_text (BondForm *form, BondFormText field, const char *label, const char *text)
{
  form->text[field] = bond_dialog_add_entry (form->dialog, label, text);
  g_signal_connect_swapped (form->text[field], "changed", G_CALLBACK (typed_cb), form);
}

static GtkDropDown *
add_words (BondForm *form, const char *label, const char *const *words, gsize n, const char *before)
{
  g_autoptr (GPtrArray) names = g_ptr_array_new ();
  guint selected = 0;

  for (gsize i = 0; i < n; i++)
    {
      g_ptr_array_add (names, (gpointer)_ (words[i]));
      if (before != NULL && g_str_equal (_ (words[i]), before))
        selected = (guint)i;
    }
  g_ptr_array_add (names, NULL);
  return bond_dialog_add_choice (form->dialog, label, (const char *const *)names->pdata, selected);
}

static GtkDropDown *
add_objects (BondForm *form, const char *label, GPtrArray *objects, goffset name_at)
{
  g_autoptr (GPtrArray) names = g_ptr_array_new ();

  for (guint i = 0; i < objects->len; i++)
    g_ptr_array_add (names, G_STRUCT_MEMBER (gpointer, objects->pdata[i], name_at));
  g_ptr_array_add (names, NULL);
  return bond_dialog_add_choice (form->dialog, label, (const char *const *)names->pdata, 0);
}

static void
trigger_changed_cb (BondForm *form)
{
  GtkWidget *field = GTK_WIDGET (form->text[BOND_FORM_OTHER_TRIGGER]);
  gboolean other = gtk_drop_down_get_selected (form->trigger) == OTHER_TRIGGER;

  /* A field that is switched off while it has the keys does not let go of them. */
  if (!other && (gtk_widget_get_state_flags (field) & GTK_STATE_FLAG_FOCUS_WITHIN) != 0)
    gtk_widget_grab_focus (GTK_WIDGET (form->trigger));
  gtk_widget_set_sensitive (field, other);
  typed_cb (form);
}

static void
add_aircraft (BondForm *form)
{
  bond_dialog_add_heading (form->dialog, _ ("Aircraft"));
  form->airframe = add_objects (form, _ ("_Airframe"), form->airframes, G_STRUCT_OFFSET (BondAirframe, name));
  add_text (form, BOND_FORM_REGISTRATION, _ ("_Registration"), NULL);
  add_text (form, BOND_FORM_SERIAL, _ ("_Serial number"), NULL);
  form->earlier = bond_dialog_add_choice (form->dialog, _ ("_Earlier survey"), (const char *[]){ _ ("none"), NULL }, 0);
  g_signal_connect_swapped (form->airframe, "notify::selected", G_CALLBACK (bond_form_airframe_changed), form);
}

/* What comes along, counted, and that none of it is a reading. */
static void
add_again (BondForm *form)
{
  const BondEarlier *last = form->again->earlier->pdata[form->again->earlier->len - 1];
  g_autofree char *date = bond_words_date (last->date);
  g_autofree char *who = g_strdup_printf (_ ("%s, %s, MSN %s"), form->header->registration, form->again->airframe->name,
                                          form->header->serial);
  g_autofree char *points
      = g_strdup_printf (ngettext ("%u point placed by hand", "%u points placed by hand", form->again->points->len),
                         form->again->points->len);
  g_autofree char *items
      = g_strdup_printf (ngettext ("%u open item", "%u open items", form->again->notes->len), form->again->notes->len);
  g_autofree char *text
      = g_strdup_printf (_ ("From the survey of %s come along: the points of the airframe, %s, %s as notes, and the "
                            "values found then. None of them counts as a reading: every point starts to measure."),
                         date, points, items);

  bond_dialog_add_heading (form->dialog, who);
  bond_dialog_add_text (form->dialog, text);
}

#define BEFORE(form, member) ((form)->header != NULL ? (form)->header->member : NULL)

static void
add_job (BondForm *form)
{
  bond_dialog_add_heading (form->dialog, _ ("Job"));
  add_text (form, BOND_FORM_TITLE, _ ("_Title"), BEFORE (form, title));
  form->trigger = add_words (form, _ ("_What started it"), triggers, G_N_ELEMENTS (triggers), NULL);
  add_text (form, BOND_FORM_OTHER_TRIGGER, _ ("_Other"), NULL);
  add_text (form, BOND_FORM_ORDER, _ ("Work or_der"), NULL);
  add_text (form, BOND_FORM_CARD, _ ("_Card"), NULL);
  add_text (form, BOND_FORM_CARD_REVISION, _ ("Card re_vision"), NULL);
  add_text (form, BOND_FORM_CUSTOMER, _ ("C_ustomer"), BEFORE (form, customer));
  add_text (form, BOND_FORM_PLACE, _ ("_Place"), BEFORE (form, location));
  g_signal_connect_swapped (form->trigger, "notify::selected", G_CALLBACK (trigger_changed_cb), form);
  trigger_changed_cb (form);
}

static void
add_state (BondForm *form)
{
  bond_dialog_add_heading (form->dialog, _ ("State of the aircraft"));
  add_text (form, BOND_FORM_HOURS, _ ("_Hours"), NULL);
  add_text (form, BOND_FORM_CYCLES, _ ("C_ycles"), NULL);
  form->power = add_words (form, _ ("Po_wer"), powers, G_N_ELEMENTS (powers), NULL);
  form->fuel = add_words (form, _ ("_Fuel"), fuels, G_N_ELEMENTS (fuels), NULL);
}

static void
add_data (BondForm *form)
{
  const char *rules[] = { bond_rule_name (BOND_RULE_SIMPLE), bond_rule_name (BOND_RULE_GUARDED), NULL };

  bond_dialog_add_heading (form->dialog, _ ("Data and limits"));
  add_text (form, BOND_FORM_CHECKED_BY, _ ("Data chec_ked by"), NULL);
  add_text (form, BOND_FORM_CHECKED_ON, _ ("checked o_n (year-month-day)"), NULL);
  form->rule = bond_dialog_add_choice (form->dialog, _ ("Dec_ision rule"), rules, 0);
  if (form->header != NULL)
    gtk_drop_down_set_selected (form->rule, form->header->rule == BOND_RULE_GUARDED ? 1 : 0);
  bond_form_add_sets (form);
}

static void
add_scope (BondForm *form)
{
  bond_dialog_add_heading (form->dialog, _ ("Zones in scope"));
  form->zones = BOND_ZONE_TREE (bond_zone_tree_new ());
  bond_dialog_add_row (form->dialog, GTK_WIDGET (form->zones));
  g_signal_connect_swapped (form->zones, "changed", G_CALLBACK (typed_cb), form);
}

/* Most walks are made with a milliohmmeter: the first one in calibration is ticked. */
static void
add_instruments (BondForm *form)
{
  gboolean ticked = FALSE;
  GDate today;

  bond_due_today (form->source, &today);
  bond_dialog_add_heading (form->dialog, _ ("Instruments"));
  for (guint i = 0; i < form->instruments->len; i++)
    {
      const BondInstrument *instrument = form->instruments->pdata[i];
      gboolean in_date = bond_instrument_in_date (instrument, &today);
      gboolean first = !ticked && in_date && instrument->kind == BOND_INSTRUMENT_MILLIOHMMETER;
      g_autofree char *due = bond_words_date (instrument->due);
      g_autofree char *label
          = instrument->due != NULL
                ? g_strdup_printf (in_date ? _ ("%s, due %s") : _ ("%s, was due %s"), instrument->name, due)
                : g_strdup (instrument->name);

      g_ptr_array_add (form->instrument_checks, bond_dialog_add_check (form->dialog, label, first));
      ticked = ticked || first;
    }
  if (form->instruments->len == 0)
    bond_dialog_add_text (form->dialog, _ ("There is no meter in the library. One can be chosen later, on the walk."));
}

/* A list with nobody in it is no choice: only the name is asked then. */
static void
add_person (BondForm *form)
{
  bond_dialog_add_heading (form->dialog, _ ("Who measures"));
  if (form->people->len > 0)
    form->person = add_objects (form, _ ("_Inspector"), form->people, G_STRUCT_OFFSET (BondPerson, name));
  add_text (form, BOND_FORM_NAME, form->people->len > 0 ? _ ("or another na_me") : _ ("_Inspector"), NULL);
}

void
bond_form_build (BondForm *form)
{
  if (form->again != NULL)
    add_again (form);
  else
    add_aircraft (form);
  add_job (form);
  add_state (form);
  add_data (form);
  add_scope (form);
  add_instruments (form);
  add_person (form);
  bond_form_airframe_changed (form);
}
