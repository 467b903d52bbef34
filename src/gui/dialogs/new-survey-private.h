/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The form of a new survey, as its files share it: new-survey-form.c lays it out,
 * new-survey-limits.c ticks limit sets, new-survey-check.c says what is wrong,
 * new-survey-dialog.c makes the survey.
 */
#pragma once

#include "gui/dialog.h"
#include "gui/dialogs/new-survey-dialog.h"
#include "gui/dialogs/zone-tree.h"
#include "library/library.h"

G_BEGIN_DECLS

typedef enum
{
  BOND_FORM_REGISTRATION,
  BOND_FORM_SERIAL,
  BOND_FORM_TITLE,
  BOND_FORM_OTHER_TRIGGER,
  BOND_FORM_ORDER,
  BOND_FORM_CARD,
  BOND_FORM_CARD_REVISION,
  BOND_FORM_CUSTOMER,
  BOND_FORM_PLACE,
  BOND_FORM_HOURS,
  BOND_FORM_CYCLES,
  BOND_FORM_CHECKED_BY,
  BOND_FORM_CHECKED_ON,
  BOND_FORM_NAME,
} BondFormText;
#define BOND_N_FORM_TEXTS 14

/**
 * BondForm: everything the dialog has. Widgets are borrowed from it; a widget that this form does not show is NULL.
 * @again: (nullable): what the earlier survey leaves, when this is Survey Again; @header: its first entry's figures
 * @found: (nullable): of BondSurveySummary: the library; @offered: borrowed from it: the same aircraft
 */
typedef struct
{
  BondApplication *application; /* outlives the dialog */
  BondSource *source;
  BondDialog *dialog;
  BondCarry *again;
  BondSurveyFile *again_file; /* keeps @header alive */
  const BondCreate *header;
  GPtrArray *airframes, *sets, *people, *instruments; /* of references */
  GPtrArray *set_checks, *instrument_checks;          /* of GtkCheckButton */
  GPtrArray *found, *offered;
  GtkDropDown *airframe, *person, *rule, *earlier, *trigger, *power, *fuel;
  GtkEditable *text[BOND_N_FORM_TEXTS];
  GtkLabel *sets_note;
  BondZoneTree *zones;
  GCancellable *cancellable;
} BondForm;

/** bond_form_build: lays the form out in its dialog. */
void bond_form_build (BondForm *form);
/** bond_form_airframe: the one chosen, or that of the earlier survey. (transfer none) (nullable) */
BondAirframe *bond_form_airframe (BondForm *form);
/** bond_form_text: what stands in @field, NULL when nothing. (transfer full) */
char *bond_form_text (BondForm *form, BondFormText field);
/** bond_form_chosen: the object @drop (nullable) stands at. (transfer none) (nullable) */
gpointer bond_form_chosen (GtkDropDown *drop, GPtrArray *from);
/** bond_form_trigger, _power, _fuel: as they are recorded; NULL = not stated. (transfer full) */
char *bond_form_trigger (BondForm *form);
char *bond_form_power (BondForm *form);
char *bond_form_fuel (BondForm *form);

/** bond_form_add_sets: the limit sets as ticks. */
void bond_form_add_sets (BondForm *form);
/** bond_form_airframe_changed: ticks the sets its points name and lists its zones. */
void bond_form_airframe_changed (BondForm *form);
/** bond_form_sets: those ticked, switched on. (transfer full): GPtrArray of BondLimitSet */
GPtrArray *bond_form_sets (BondForm *form);
/** bond_form_instruments: those ticked, borrowed. (transfer container) */
GPtrArray *bond_form_instruments (BondForm *form);

/** bond_form_find_problem: the first thing that is wrong, NULL = nothing; @widget: (out): where. */
const char *bond_form_find_problem (BondForm *form, GtkWidget **widget);

G_END_DECLS
