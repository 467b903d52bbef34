/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Entries as data: how one is made, shared and freed, and the fixed words for each
 * kind, reason and finding.  What an entry does to a survey is left to survey.c and
 * judge.c, its XML to the store.
 */
#include "core/entry.h"
#include "core/word.h"

#include <glib/gi18n-lib.h>

static const BondEntryKindInfo kinds[BOND_N_ENTRY_KINDS] = {
  { "create", BOND_ENTRY_CREATE, TRUE, FALSE, FALSE },
  { "adopt", BOND_ENTRY_ADOPT, TRUE, FALSE, FALSE },
  { "point", BOND_ENTRY_POINT, TRUE, TRUE, FALSE },
  { "place", BOND_ENTRY_PLACE, TRUE, TRUE, FALSE },
  { "reading", BOND_ENTRY_READING, TRUE, TRUE, FALSE },
  { "void", BOND_ENTRY_VOID, TRUE, TRUE, TRUE },
  { "correct", BOND_ENTRY_CORRECT, TRUE, TRUE, TRUE },
  { "move", BOND_ENTRY_MOVE, TRUE, TRUE, TRUE },
  { "take-back", BOND_ENTRY_TAKE_BACK, TRUE, FALSE, TRUE },
  { "rework", BOND_ENTRY_REWORK, TRUE, TRUE, FALSE },
  { "condition", BOND_ENTRY_CONDITION, TRUE, TRUE, FALSE },
  { "state", BOND_ENTRY_STATE, TRUE, TRUE, FALSE },
  { "visual", BOND_ENTRY_VISUAL, TRUE, TRUE, FALSE },
  { "disposition", BOND_ENTRY_DISPOSITION, TRUE, TRUE, FALSE },
  { "attach", BOND_ENTRY_ATTACH, TRUE, FALSE, FALSE },
  { "seen", BOND_ENTRY_SEEN, FALSE, TRUE, FALSE },
};

static const BondWord directions[] = { { "forward", NULL }, { "reverse", NULL }, { "repeat", NULL } };

static const BondWord void_reasons[] = {
  { "none", N_ ("no reason") },
  { "wrong-point", N_ ("wrong point") },
  { "typing-slip", N_ ("typing slip") },
  { "wrong-unit", N_ ("wrong unit") },
  { "instrument-fault", N_ ("instrument fault") },
  { "other", N_ ("other") },
};

static const BondWord point_marks[] = {
  { "none", NULL },           { "not-accessible", NULL }, { "not-fitted", NULL },
  { "not-applicable", NULL }, { "not-in-sample", NULL },
};

static const BondWord dispositions[] = { { "carried-forward", NULL }, { "deferred", NULL }, { "accepted", NULL } };

/* Index: number of the bit. */
static const BondWord reworks[BOND_N_REWORK_DONE] = {
  { "surfaces-cleaned", N_ ("surfaces cleaned") },
  { "torque-restored", N_ ("torque restored") },
  { "jumper-replaced", N_ ("jumper replaced") },
  { "finish-reapplied", N_ ("finish reapplied") },
  { "other", N_ ("other work") },
};

static const BondWord findings[] = {
  { "good", N_ ("good") },
  { "corrosion", N_ ("corrosion") },
  { "paint", N_ ("paint or film") },
  { "loose", N_ ("loose") },
  { "strands", N_ ("broken strands") },
  { "leg-broken", N_ ("leg broken") },
  { "missing", N_ ("missing") },
  { "present", N_ ("present, must be absent") },
  { "other", N_ ("other") },
};

const BondEntryKindInfo *
bond_entry_kind_info (BondEntryKind kind)
{
  g_return_val_if_fail ((guint)kind < BOND_N_ENTRY_KINDS, NULL);
  return &kinds[kind];
}

gboolean
bond_entry_kind_parse (const char *text, BondEntryKind *kind)
{
  gsize i;

  g_return_val_if_fail (text != NULL && kind != NULL, FALSE);
  for (i = 0; i < G_N_ELEMENTS (kinds); i++)
    if (strcmp (kinds[i].name, text) == 0)
      {
        *kind = kinds[i].kind;
        return TRUE;
      }
  return FALSE;
}

const char *
bond_direction_file_name (BondDirection direction)
{
  return bond_word_file (directions, G_N_ELEMENTS (directions), direction);
}

gboolean
bond_direction_parse (const char *text, BondDirection *direction)
{
  int i = bond_word_find (directions, G_N_ELEMENTS (directions), text);

  if (i >= 0)
    *direction = (BondDirection)i;
  return i >= 0;
}

const char *
bond_void_reason_file_name (BondVoidReason reason)
{
  return bond_word_file (void_reasons, G_N_ELEMENTS (void_reasons), reason);
}

const char *
bond_void_reason_name (BondVoidReason reason)
{
  return bond_word_name (void_reasons, G_N_ELEMENTS (void_reasons), reason);
}

gboolean
bond_void_reason_parse (const char *text, BondVoidReason *reason)
{
  int i = bond_word_find (void_reasons, G_N_ELEMENTS (void_reasons), text);

  if (i >= 0)
    *reason = (BondVoidReason)i;
  return i >= 0;
}

const char *
bond_point_mark_file_name (BondPointMark mark)
{
  return bond_word_file (point_marks, G_N_ELEMENTS (point_marks), mark);
}

gboolean
bond_point_mark_parse (const char *text, BondPointMark *mark)
{
  int i = bond_word_find (point_marks, G_N_ELEMENTS (point_marks), text);

  if (i >= 0)
    *mark = (BondPointMark)i;
  return i >= 0;
}

const char *
bond_disposition_file_name (BondDispositionKind kind)
{
  return bond_word_file (dispositions, G_N_ELEMENTS (dispositions), kind);
}

gboolean
bond_disposition_parse (const char *text, BondDispositionKind *kind)
{
  int i = bond_word_find (dispositions, G_N_ELEMENTS (dispositions), text);

  if (i >= 0)
    *kind = (BondDispositionKind)i;
  return i >= 0;
}

const char *
bond_rework_done_file_name (BondReworkDone one)
{
  return bond_word_file (reworks, G_N_ELEMENTS (reworks), g_bit_nth_lsf (one, -1));
}

const char *
bond_rework_done_name (BondReworkDone one)
{
  return bond_word_name (reworks, G_N_ELEMENTS (reworks), g_bit_nth_lsf (one, -1));
}

gboolean
bond_rework_done_parse (const char *text, BondReworkDone *one)
{
  int i = bond_word_find (reworks, G_N_ELEMENTS (reworks), text);

  if (i >= 0)
    *one = (BondReworkDone)(1 << i);
  return i >= 0;
}

const char *
bond_visual_file_name (BondVisualFinding finding)
{
  return bond_word_file (findings, G_N_ELEMENTS (findings), finding);
}

const char *
bond_visual_name (BondVisualFinding finding)
{
  return bond_word_name (findings, G_N_ELEMENTS (findings), finding);
}

gboolean
bond_visual_parse (const char *text, BondVisualFinding *finding)
{
  int i = bond_word_find (findings, G_N_ELEMENTS (findings), text);

  if (i >= 0)
    *finding = (BondVisualFinding)i;
  return i >= 0;
}

void
bond_reading_set_typed (BondReading *reading, const BondTypedValue *value)
{
  g_return_if_fail (reading != NULL && value != NULL);
  g_free (reading->text);
  reading->text = g_strdup (value->text);
  reading->unit = value->unit;
  reading->quantity = value->quantity;
  reading->nanovolt = value->nanovolt;
  reading->microampere = value->microampere;
}

void
bond_reading_copy (BondReading *to, const BondReading *from)
{
  g_return_if_fail (to != NULL && from != NULL && to != from);
  *to = *from;
  to->of = g_strdup (from->of);
  to->text = g_strdup (from->text);
  to->instrument = g_strdup (from->instrument);
  to->range = g_strdup (from->range);
  to->leads = g_strdup (from->leads);
  to->check = g_strdup (from->check);
  to->via = g_strdup (from->via);
  to->said = g_strdup (from->said);
  to->reference_end = g_strdup (from->reference_end);
}

void
bond_reading_clear (BondReading *reading)
{
  g_return_if_fail (reading != NULL);
  g_free (reading->of);
  g_free (reading->text);
  g_free (reading->instrument);
  g_free (reading->range);
  g_free (reading->leads);
  g_free (reading->check);
  g_free (reading->via);
  g_free (reading->said);
  g_free (reading->reference_end);
  *reading = (BondReading){ 0 };
}

static void
create_clear (BondCreate *create)
{
  g_free (create->aircraft_type);
  g_free (create->serial);
  g_free (create->registration);
  g_free (create->title);
  g_free (create->order);
  g_free (create->trigger);
  g_free (create->customer);
  g_free (create->location);
}

/* One row a kind of object: an entry holds exactly one reference, whatever the object is. */
static const struct
{
  gpointer (*ref) (gpointer);
  void (*unref) (gpointer);
} adoptable[] = {
  [BOND_ADOPT_AIRFRAME] = { (gpointer (*) (gpointer))bond_airframe_ref, (void (*) (gpointer))bond_airframe_unref },
  [BOND_ADOPT_LIMIT_SET] = { (gpointer (*) (gpointer))bond_limit_set_ref, (void (*) (gpointer))bond_limit_set_unref },
  [BOND_ADOPT_INSTRUMENT]
  = { (gpointer (*) (gpointer))bond_instrument_ref, (void (*) (gpointer))bond_instrument_unref },
  [BOND_ADOPT_PERSON] = { (gpointer (*) (gpointer))bond_person_ref, (void (*) (gpointer))bond_person_unref },
  [BOND_ADOPT_HOUSE] = { (gpointer (*) (gpointer))bond_house_ref, (void (*) (gpointer))bond_house_unref },
  [BOND_ADOPT_EARLIER] = { (gpointer (*) (gpointer))bond_earlier_ref, (void (*) (gpointer))bond_earlier_unref },
};

static void
payload_clear (BondEntry *entry)
{
  switch (entry->kind)
    {
    case BOND_ENTRY_CREATE:
      create_clear (&entry->create);
      break;
    case BOND_ENTRY_ADOPT:
      if (entry->adopt.object != NULL)
        adoptable[entry->adopt.what].unref (entry->adopt.object);
      break;
    case BOND_ENTRY_POINT:
      g_clear_pointer (&entry->spec, bond_point_spec_unref);
      break;
    case BOND_ENTRY_PLACE:
      g_free (entry->place_spec.label);
      break;
    case BOND_ENTRY_READING:
    case BOND_ENTRY_SEEN:
      bond_reading_clear (&entry->reading);
      break;
    case BOND_ENTRY_CORRECT:
      bond_reading_clear (&entry->correct.reading);
      break;
    case BOND_ENTRY_MOVE:
      g_free (entry->move.to_point);
      g_free (entry->move.to_place);
      break;
    case BOND_ENTRY_REWORK:
      g_free (entry->rework.reference);
      g_free (entry->rework.note);
      g_free (entry->rework.done_by);
      break;
    case BOND_ENTRY_CONDITION:
      g_free (entry->condition.reference);
      break;
    case BOND_ENTRY_DISPOSITION:
      g_free (entry->disposition.reference);
      g_free (entry->disposition.holder);
      g_free (entry->disposition.until);
      g_free (entry->disposition.first_date);
      break;
    case BOND_ENTRY_ATTACH:
      g_free (entry->attach.sha256);
      g_free (entry->attach.name);
      g_free (entry->attach.type);
      break;
    case BOND_ENTRY_VOID:
    case BOND_ENTRY_TAKE_BACK:
    case BOND_ENTRY_STATE:
    case BOND_ENTRY_VISUAL:
      break; /* these own nothing */
    }
}

BondEntry *
bond_entry_new (BondEntryKind kind)
{
  BondEntry *entry;

  g_return_val_if_fail ((guint)kind < BOND_N_ENTRY_KINDS, NULL);
  entry = g_new0 (BondEntry, 1);
  entry->ref_count = 1;
  entry->kind = kind;
  if (kind == BOND_ENTRY_VISUAL)
    entry->visual.percent = -1;
  return entry;
}

BondEntry *
bond_entry_ref (BondEntry *entry)
{
  g_return_val_if_fail (entry != NULL, NULL);
  g_atomic_int_inc (&entry->ref_count);
  return entry;
}

void
bond_entry_unref (BondEntry *entry)
{
  g_return_if_fail (entry != NULL);
  if (!g_atomic_int_dec_and_test (&entry->ref_count))
    return;
  payload_clear (entry);
  g_free (entry->id);
  g_free (entry->sitting);
  g_free (entry->at);
  g_free (entry->by);
  g_free (entry->entered_by);
  g_free (entry->under);
  g_free (entry->point);
  g_free (entry->place);
  g_free (entry->ref);
  g_free (entry->reason);
  g_free (entry->digest);
  g_free (entry);
}

BondEntry *
bond_entry_adopt_new (BondAdoptKind what, gpointer object)
{
  BondEntry *entry;

  g_return_val_if_fail ((guint)what < G_N_ELEMENTS (adoptable) && object != NULL, NULL);
  entry = bond_entry_new (BOND_ENTRY_ADOPT);
  entry->adopt.what = what;
  entry->adopt.object = adoptable[what].ref (object);
  return entry;
}
